/** A list of numbers, spread over lines by `JSON.stringify`. No string contains a line break, so none is touched. */
const NUMBERS = /\[\n\s+((?:-?[\d.eE+-]+|null)(?:,\n\s+(?:-?[\d.eE+-]+|null))*)\n\s+\]/g

/**
 * Writes an answer as JSON, full double precision.
 *
 * @throws Error  where a number is NaN or infinite: such a number never leaves, it is a fault of ours and named
 */
export function answerText(answer: object): string {
  checkNumbers(answer, 'answer')
  const text = JSON.stringify(answer, null, 2)
  return `${text.replace(NUMBERS, (_, numbers: string) => `[${numbers.replace(/\s+/g, ' ')}]`)}\n`
}

/** The same on one line of its own. */
export function answerLine(answer: object): string {
  checkNumbers(answer, 'answer')
  return `${JSON.stringify(answer)}\n`
}

function checkNumbers(value: unknown, path: string): void {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${path} is ${value}`)
  if (typeof value !== 'object' || value === null) return
  for (const [key, part] of Object.entries(value)) checkNumbers(part, `${path}.${key}`)
}
