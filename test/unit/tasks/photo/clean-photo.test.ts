/**
 * Files crafted by the letter of the formats (ITU-T T.81, annex B; RFC 9649): what a camera writes beside a picture is gone, the
 * picture is byte for byte what it was. The pictures, three pixels by two, were made by Chromium's canvas.
 */
import { expect, test } from 'vitest'
import { cleanPhoto, LONGEST_PHOTO } from '@/lib/tasks/photo/clean-photo'

const jpeg = Buffer.from(
  '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABALDA4MChAODQ4SERATGCgaGBYWGDEjJR0oOjM9PDkzODdASFxOQERXRTc4UG1RV19iZ2hnPk1xeXBkeFxlZ2P/2wBDARESEhgVGC8aGi9jQjhCY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2NjY2P/wAARCAACAAMDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAX/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QAFQEBAQAAAAAAAAAAAAAAAAAABAb/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCOACqH/9k=',
  'base64',
)
/** Its first segment is the eighteen bytes of JFIF. */
const JFIF = 18
const bare = Buffer.concat([jpeg.subarray(0, 2), jpeg.subarray(2 + JFIF)])

const lossy = Buffer.from('9001009d012a0300020002c04c25a00274ba00039800feed903f885dec6dbffcf4cfeb6fe3ff19000000', 'hex')
const alpha = Buffer.from('00808080808080', 'hex')

const segment = (marker: number, body: Buffer) => {
  const head = Buffer.from([0xff, marker, 0, 0])
  head.writeUInt16BE(body.length + 2, 2)
  return Buffer.concat([head, body])
}

/** A TIFF of one or two entries: the orientation, and where the words of a place stand behind it. */
function tiff(orientation: number, isLittle = true): Buffer {
  const b = Buffer.alloc(26)
  b.write(isLittle ? 'II' : 'MM', 0)
  const put = (value: number, at: number) => (isLittle ? b.writeUInt16LE(value, at) : b.writeUInt16BE(value, at))
  const put4 = (value: number, at: number) => (isLittle ? b.writeUInt32LE(value, at) : b.writeUInt32BE(value, at))
  put(42, 2)
  put4(8, 4)
  put(1, 8)
  put(274, 10)
  put(3, 12)
  put4(1, 14)
  put(orientation, 18)
  return Buffer.concat([b, Buffer.from('GPS 54.1N 12.1E, Quivering Pier')])
}
const exif = (orientation: number, isLittle?: boolean) =>
  segment(0xe1, Buffer.concat([Buffer.from('Exif\0\0'), tiff(orientation, isLittle)]))

const withSegments = (...segments: Buffer[]) => Buffer.concat([jpeg.subarray(0, 2), ...segments, jpeg.subarray(2)])

const chunk = (name: string, body: Buffer) => {
  const head = Buffer.from(`${name}\0\0\0\0`)
  head.writeUInt32LE(body.length, 4)
  return Buffer.concat([head, body, Buffer.alloc(body.length % 2)])
}
function webp(...chunks: Buffer[]): Buffer {
  const head = Buffer.from('RIFF\0\0\0\0WEBP')
  const body = Buffer.concat(chunks)
  head.writeUInt32LE(body.length + 4, 4)
  return Buffer.concat([head, body])
}
const extended = (flags: number) => chunk('VP8X', Buffer.from([flags, 0, 0, 0, 2, 0, 0, 1, 0, 0]))

function bytesOf(file: Buffer): Buffer {
  const clean = cleanPhoto(file)
  expect(clean).toMatchObject({ ok: true, value: { width: 3, height: 2 } })
  return clean.ok ? Buffer.from(clean.value.bytes) : Buffer.alloc(0)
}

test('of a JPEG the place, the words of a program, a comment, a profile and a thumbnail are gone, and the picture is as it was', () => {
  const camera = withSegments(
    exif(1),
    segment(0xe1, Buffer.from('http://ns.adobe.com/xap/1.0/\0<x>Quivering Pier</x>')),
    segment(0xe2, Buffer.from('ICC_PROFILE\0Quivering Pier')),
    segment(0xed, Buffer.from('Photoshop 3.0\0Quivering Pier')),
    segment(0xfe, Buffer.from('Quivering Pier')),
  )
  const kept = bytesOf(camera)
  expect(kept.includes('Quivering')).toBe(false)
  expect(kept.includes('Exif')).toBe(false)
  expect(kept.equals(bare)).toBe(true)
})

test('what stands behind the end of a picture is cut off, and a clean one cleaned again is the same', () => {
  expect(bytesOf(Buffer.concat([jpeg, Buffer.from('Quivering Pier')])).equals(bare)).toBe(true)
  expect(bytesOf(bare).equals(bare)).toBe(true)
})

test('Adobe’s twelve bytes stay, for they say which colours are meant; more of them do not', () => {
  const own = segment(0xee, Buffer.from('Adobe\0d\0\0\0\0\x01', 'latin1'))
  expect(own).toHaveLength(16)
  expect(bytesOf(withSegments(own)).includes('Adobe')).toBe(true)
  expect(bytesOf(withSegments(segment(0xee, Buffer.from('Adobe\0d\0\0\0\0\x01Quivering')))).includes('Adobe')).toBe(
    false,
  )
})

test('of a WebP the place and the profile are gone, the picture and its transparency are as they were', () => {
  const file = webp(
    extended(0x3c),
    chunk('ICCP', Buffer.from('Quivering Pier')),
    chunk('ALPH', alpha),
    chunk('VP8 ', lossy),
    chunk('EXIF', tiff(1)),
    chunk('XMP ', Buffer.from('<x>Quivering Pier</x>')),
    chunk('QUIV', Buffer.from('Quivering Pier')),
  )
  const kept = bytesOf(file)
  expect(kept.equals(webp(extended(0x10), chunk('ALPH', alpha), chunk('VP8 ', lossy)))).toBe(true)
  expect(
    bytesOf(webp(extended(0x20), chunk('ICCP', Buffer.from('Quiv')), chunk('VP8 ', lossy))).equals(
      webp(chunk('VP8 ', lossy)),
    ),
  ).toBe(true)
})

test('the size of a lossless WebP is read from its fourteen bits a side', () => {
  // 0x2f, then width − 1 = 2 in fourteen bits and height − 1 = 1 in the next
  const header = Buffer.from([0x2f, 2, 0x40, 0, 0, 0, 0])
  expect(bytesOf(webp(chunk('VP8L', header))).includes('VP8L')).toBe(true)
})

test.each([
  ['on its side by its EXIF', withSegments(exif(6)), 'turned'],
  ['on its side, written the other way round', withSegments(exif(8, false)), 'turned'],
  ['a WebP on its side', webp(extended(8), chunk('VP8 ', lossy), chunk('EXIF', tiff(6))), 'turned'],
  [
    'a WebP on its side, with the six bytes of a JPEG',
    webp(chunk('VP8 ', lossy), chunk('EXIF', Buffer.concat([Buffer.from('Exif\0\0'), tiff(3)]))),
    'turned',
  ],
  ['a PNG called a photo', Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex'), 'not-a-photo'],
  ['a page called a photo', Buffer.from('<script>alert(1)</script>'), 'not-a-photo'],
  ['nothing', Buffer.alloc(0), 'not-a-photo'],
  [
    'a moving WebP',
    webp(extended(0x02), chunk('ANIM', Buffer.alloc(6)), chunk('ANMF', Buffer.alloc(24))),
    'not-a-photo',
  ],
  ['a RIFF of sound', Buffer.from('RIFF\x10\0\0\0WAVEfmt \0\0\0\0', 'latin1'), 'not-a-photo'],
  ['cut off in its compressed part', jpeg.subarray(0, -3), 'broken'],
  ['cut off in a table', jpeg.subarray(0, 60), 'broken'],
  ['a JPEG without a frame', Buffer.from([0xff, 0xd8, 0xff, 0xd9]), 'broken'],
  ['a segment that says it is no byte long', withSegments(Buffer.from([0xff, 0xe1, 0, 0])), 'broken'],
  ['a WebP that is shorter than it says', webp(chunk('VP8 ', lossy)).subarray(0, -6), 'broken'],
  ['a WebP with a chunk longer than the file', webp(Buffer.from('VP8 \xff\xff\xff\x7f', 'latin1')), 'broken'],
  ['a WebP without a picture', webp(extended(0)), 'broken'],
  ['one byte too long', Buffer.concat([jpeg, Buffer.alloc(LONGEST_PHOTO + 1 - jpeg.length)]), 'too-large'],
])('%s is refused', (_, file, reason) => {
  expect(cleanPhoto(file)).toMatchObject({ ok: false, reason })
})

test('a picture too wide for a phone is refused by its own header', () => {
  const wide = Buffer.from(bare)
  const frame = wide.indexOf(Buffer.from([0xff, 0xc0]))
  wide.writeUInt16BE(6001, frame + 7)
  expect(cleanPhoto(wide)).toMatchObject({ ok: false, reason: 'too-wide' })
})

test('whatever is cut off or flipped of a file, it is refused or cleaned, and never more than a reason', () => {
  const files = [
    withSegments(exif(1)),
    webp(extended(0x18), chunk('ALPH', alpha), chunk('VP8 ', lossy), chunk('EXIF', tiff(1))),
  ]
  for (const file of files) {
    for (let at = 0; at < file.length; at++) {
      const flipped = Buffer.from(file)
      flipped[at] = (flipped[at] ?? 0) ^ 0xff
      for (const one of [file.subarray(0, at), flipped]) {
        const clean = cleanPhoto(one)
        if (clean.ok) expect(Buffer.from(clean.value.bytes).includes('Exif')).toBe(false)
      }
    }
  }
})
