/** A slip of an index must not turn into a zero that looks like a number: `list[i] ?? lost()` throws, `list[i] ?? 0` counts on. */
import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const files = readdirSync('lib/stats', { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts'))
  .map((file) => `lib/stats/${file}`)

/** A place of a list, by its number or by `at`, and what stands in when it is not there. */
const zeroForAPlace = /(\]|\.at\([^)]*\))\)* \?\? 0\b/

test('no place of a list in the statistics is read as zero where it is not there', () => {
  expect(files.length).toBeGreaterThan(60)
  const lines = files.flatMap((file) =>
    readFileSync(file, 'utf8')
      .split('\n')
      .map((line, i) => ({ where: `${file}:${i + 1}`, line })),
  )
  expect(lines.filter(({ line }) => zeroForAPlace.test(line)).map(({ where }) => where)).toEqual([])
})

test.each(['sum += rows[i] ?? 0', 'const x = (row[at + j] ?? 0) * 2', 'left[i]?.[j] ?? 0', 'doses.at(-1) ?? 0'])(
  '%s is seen',
  (line) => {
    expect(zeroForAPlace.test(line)).toBe(true)
  },
)
