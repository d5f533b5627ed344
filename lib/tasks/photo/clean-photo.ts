import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { cleanJpeg } from './clean-jpeg'
import { cleanWebp } from './clean-webp'
import type { CleanPhoto, PhotoRefusal } from './photo-kinds'

/** The longest file that is kept, bytes. */
export const LONGEST_PHOTO = 300_000
/** The longest side, pixels: a small file can unfold to more than a phone can hold. */
const WIDEST = 6000

/**
 * What is in this file, by its bytes, without what a camera wrote beside the picture: place, time, device, names, thumbnails,
 * colour profile, and whatever stands behind its end.
 *
 * @returns `turned` for a picture that is only upright by what the camera wrote beside it: with that gone it would lie down.
 *          It is refused and never turned here, for turning would mean to compress it anew; the page turns it before sending.
 *
 * Source   ITU-T T.81 (1992), annex B; RFC 9649 (2024), section 2; orientation: TIFF 6.0, tag 274
 * Checked  test/unit/tasks/photo/clean-photo.test.ts
 * Limits   The frame is read, not the picture: a file damaged inside its compressed part is kept as it is.
 */
export function cleanPhoto(file: Uint8Array): Result<CleanPhoto, PhotoRefusal> {
  if (file.length > LONGEST_PHOTO) return no('too-large')
  const read = startsAsJpeg(file) ? cleanJpeg(file) : startsAsWebp(file) ? cleanWebp(file) : null
  if (read === null) return no('not-a-photo')
  if (!read.ok) return read
  const { width, height } = read.value
  if (!(width > 0 && height > 0)) return no('broken')
  return Math.max(width, height) > WIDEST ? no('too-wide') : ok(read.value)
}

const startsAsJpeg = (file: Uint8Array) => file[0] === 0xff && file[1] === 0xd8 && file[2] === 0xff

const text = (file: Uint8Array, from: number, to: number) => String.fromCharCode(...file.subarray(from, to))

const startsAsWebp = (file: Uint8Array) => text(file, 0, 4) === 'RIFF' && text(file, 8, 12) === 'WEBP'
