/**
 * A name as it is compared with others: without case, without outer or double spaces, composed.
 *
 * Databases disagree about letters without case (SQLite knows only ASCII), so that names are compared here.
 *
 * Checked  test/unit/base/like-name.test.ts
 */
export function likeName(name: string): string {
  return name.normalize('NFC').trim().replace(/\s+/g, ' ').toLocaleLowerCase('en')
}
