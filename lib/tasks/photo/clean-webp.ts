import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { orientationOf } from './orientation'
import type { CleanPhoto, PhotoRefusal } from './photo-kinds'

/** Flags of the extended header: profile, alpha, EXIF, XMP, animation. */
const [ALPHA, MOVES] = [0x10, 0x02]

interface Chunk {
  readonly name: string
  readonly body: Uint8Array
}

/** The file with its picture and its transparency, without every other chunk, cut behind its end. A moving picture is no photo. */
export function cleanWebp(file: Uint8Array): Result<CleanPhoto, PhotoRefusal> {
  const chunks = chunksOf(file)
  if (!chunks) return no('broken')
  const exif = chunks.find(({ name }) => name === 'EXIF')
  if (exif && orientationOf(tiffOf(exif.body)) !== 1) return no('turned')
  const extended = chunks.find(({ name }) => name === 'VP8X')
  if (((extended?.body[0] ?? 0) & MOVES) !== 0 || chunks.some(({ name }) => name === 'ANMF')) return no('not-a-photo')
  const pictures = chunks.filter(({ name }) => name === 'VP8 ' || name === 'VP8L')
  const [picture] = pictures
  const size = picture && pictures.length === 1 ? sizeOf(picture) : null
  if (!picture || !size) return no('broken')
  const alpha = chunks.find(({ name }) => name === 'ALPH')
  const header = extended && alpha && picture.name === 'VP8 ' ? [extendedHeader(size), alpha] : []
  return ok({ type: 'image/webp', bytes: written([...header, picture]), ...size })
}

function chunksOf(file: Uint8Array): Chunk[] | null {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength)
  if (file.length < 20) return null
  const end = 8 + view.getUint32(4, true)
  if (end > file.length) return null
  const chunks: Chunk[] = []
  for (let at = 12; at + 8 <= end;) {
    const length = view.getUint32(at + 4, true)
    if (at + 8 + length > end) return null
    const name = String.fromCharCode(...file.subarray(at, at + 4))
    chunks.push({ name, body: file.subarray(at + 8, at + 8 + length) })
    at += 8 + length + (length % 2)
  }
  return chunks
}

/** Some programs write the six bytes that only a JPEG needs. */
function tiffOf(body: Uint8Array): Uint8Array {
  return body[0] === 0x45 && body[4] === 0 ? body.subarray(6) : body
}

/** From the picture's own header: 14 bits a side. Null where it is none, or is cut before it could hold anything. */
function sizeOf({ name, body }: Chunk): { width: number; height: number } | null {
  const view = new DataView(body.buffer, body.byteOffset, body.byteLength)
  if (name === 'VP8L') {
    if (body.length < 6 || body[0] !== 0x2f) return null
    const bits = view.getUint32(1, true)
    return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 }
  }
  const isKeyFrame = body.length > 10 && ((body[0] ?? 1) & 1) === 0
  if (!isKeyFrame || body[3] !== 0x9d || body[4] !== 0x01 || body[5] !== 0x2a) return null
  return { width: view.getUint16(6, true) & 0x3fff, height: view.getUint16(8, true) & 0x3fff }
}

function extendedHeader({ width, height }: { width: number; height: number }): Chunk {
  const body = new Uint8Array(10)
  const view = new DataView(body.buffer)
  view.setUint8(0, ALPHA)
  const put = (at: number, value: number) => {
    view.setUint16(at, value & 0xffff, true)
    view.setUint8(at + 2, value >>> 16)
  }
  put(4, width - 1)
  put(7, height - 1)
  return { name: 'VP8X', body }
}

function written(chunks: readonly Chunk[]): Uint8Array {
  const long = ({ body }: Chunk) => 8 + body.length + (body.length % 2)
  const whole = new Uint8Array(12 + chunks.reduce((sum, chunk) => sum + long(chunk), 0))
  const view = new DataView(whole.buffer)
  const put = (at: number, words: string) =>
    whole.set(
      [...words].map((letter) => letter.charCodeAt(0)),
      at,
    )
  put(0, 'RIFF')
  view.setUint32(4, whole.length - 8, true)
  put(8, 'WEBP')
  let at = 12
  for (const chunk of chunks) {
    put(at, chunk.name)
    view.setUint32(at + 4, chunk.body.length, true)
    whole.set(chunk.body, at + 8)
    at += long(chunk)
  }
  return whole
}
