import { demand } from '@/lib/base/demand'

/**
 * Is this a level an interval can have?
 *
 * @throws RangeError  level not strictly between 0 and 1
 */
export function checkLevel(level: number): void {
  demand(level > 0 && level < 1, `level must lie between 0 and 1, got ${level}`)
}
