import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { orientationOf } from './orientation'
import type { CleanPhoto, PhotoRefusal } from './photo-kinds'

const START = 0xd8
const END = 0xd9
const SCAN = 0xda
const APP0 = 0xe0
const APP1 = 0xe1
const APP14 = 0xee
const APP15 = 0xef
const COMMENT = 0xfe

/** Tables, frames and scans: what a decoder needs. DHT, DAC, DQT, DNL, DRI, DHP, EXP, and the frames. */
const isFrame = (marker: number) =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc
const isKept = (marker: number) => (marker >= 0xc0 && marker <= 0xcf) || (marker >= 0xda && marker <= 0xdf)
const isRestart = (byte: number) => byte >= 0xd0 && byte <= 0xd7

/** The file without application segments and comments, cut behind its end. Of Adobe's segment only which colours it means is kept. */
export function cleanJpeg(file: Uint8Array): Result<CleanPhoto, PhotoRefusal> {
  const parts: Uint8Array[] = [file.subarray(0, 2)]
  let size: { width: number; height: number } | null = null
  let at = 2
  let hasScan = false
  for (;;) {
    while (file[at] === 0xff && file[at + 1] === 0xff) at += 1
    const marker = file[at + 1]
    if (file[at] !== 0xff || marker === undefined || marker === START) return no('broken')
    if (marker === END) {
      if (!size || !hasScan) return no('broken')
      parts.push(Uint8Array.of(0xff, END))
      return ok({ type: 'image/jpeg', bytes: joined(parts), ...size })
    }
    const long = (file[at + 2] ?? 0) * 256 + (file[at + 3] ?? 0)
    const end = at + 2 + long
    if (long < 2 || end > file.length) return no('broken')
    const body = file.subarray(at + 4, end)
    if (marker === APP1 && orientationOf(exifOf(body)) !== 1) return no('turned')
    if (isFrame(marker)) {
      if (size || body.length < 6) return no('broken')
      size = { height: pair(body, 1), width: pair(body, 3) }
    }
    if (isKept(marker) || isColourOfAdobe(marker, body)) parts.push(file.subarray(at, end))
    else if (!isDropped(marker)) return no('broken')
    at = end
    if (marker === SCAN) {
      hasScan = true
      const scanEnd = endOfScan(file, at)
      if (scanEnd === null) return no('broken')
      parts.push(file.subarray(at, scanEnd))
      at = scanEnd
    }
  }
}

const isDropped = (marker: number) => (marker >= APP0 && marker <= APP15) || marker === COMMENT || marker >= 0xf0

const pair = (bytes: Uint8Array, at: number) => (bytes[at] ?? 0) * 256 + (bytes[at + 1] ?? 0)

const startsWith = (bytes: Uint8Array, words: string) =>
  [...words].every((letter, at) => bytes[at] === letter.charCodeAt(0))

const exifOf = (body: Uint8Array) => (startsWith(body, 'Exif\0\0') ? body.subarray(6) : new Uint8Array())

/** Twelve bytes: a name, two versions, flags, and which colours: without them a decoder takes one for another. */
const isColourOfAdobe = (marker: number, body: Uint8Array) =>
  marker === APP14 && body.length === 12 && startsWith(body, 'Adobe')

/** Where the compressed bytes end: at a marker that is neither a stuffed byte nor a restart. Null where none comes. */
function endOfScan(file: Uint8Array, from: number): number | null {
  for (let at = from; at + 1 < file.length; at++) {
    const next = file[at + 1] ?? 0
    if (file[at] === 0xff && next !== 0 && next !== 0xff && !isRestart(next)) return at
  }
  return null
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((length, part) => length + part.length, 0))
  let at = 0
  for (const part of parts) {
    whole.set(part, at)
    at += part.length
  }
  return whole
}
