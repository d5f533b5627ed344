/**
 * Checks a promise between two parts of our own code.
 *
 * @throws RangeError  with the message given, which repeats the offending value
 */
export function demand(condition: boolean, message: string): asserts condition {
  if (!condition) throw new RangeError(message)
}
