import 'server-only'

/**
 * How must the picture be turned to stand upright, by what the camera wrote?
 *
 * @param tiff  from the byte-order mark on
 * @returns     1 to 8; 1 for upright, and where nothing can be read
 *
 * Source   TIFF 6.0 (1992), section 2 and tag 274
 */
export function orientationOf(tiff: Uint8Array): number {
  const view = new DataView(tiff.buffer, tiff.byteOffset, tiff.byteLength)
  const isLittle = tiff[0] === 0x49 && tiff[1] === 0x49
  if (tiff.length < 8 || (!isLittle && !(tiff[0] === 0x4d && tiff[1] === 0x4d))) return 1
  const directory = view.getUint32(4, isLittle)
  if (directory + 2 > tiff.length) return 1
  const entries = view.getUint16(directory, isLittle)
  for (let entry = 0; entry < entries; entry++) {
    const at = directory + 2 + 12 * entry
    if (at + 12 > tiff.length) return 1
    if (view.getUint16(at, isLittle) !== 274) continue
    const value = view.getUint16(at + 8, isLittle)
    return value >= 1 && value <= 8 ? value : 1
  }
  return 1
}
