/** A slow machine is no defect: no test passes or fails by seconds. Limits only end what hangs; speed is for the bench. */
import { readdirSync, readFileSync } from 'node:fs'
import { basename } from 'node:path'
import { expect, test } from 'vitest'
import config from '../../vitest.config'

const MINUTES = 60_000
/** they name a watch to forbid it */
const own = ['limits.test.ts', 'layers.test.ts']
/** the limit that it gives to a transaction is what it tests */
const ofTransactions = ['client.test.ts']

const files = readdirSync('test', { recursive: true, encoding: 'utf8' })
  .filter((file) => /\.(test|spec)\.tsx?$/.test(file) && !own.includes(basename(file)))
  .map((file) => ({ file, text: readFileSync(`test/${file}`, 'utf8') }))

const filesWith = (pattern: RegExp) => files.filter(({ text }) => pattern.test(text)).map(({ file }) => basename(file))

test('every suite gives a test, and what goes before and after it, at least ten minutes', () => {
  const projects = config.test?.projects ?? []
  expect(projects.length).toBeGreaterThan(3)
  for (const project of projects) {
    expect(project).toMatchObject({ test: { testTimeout: expect.any(Number), hookTimeout: expect.any(Number) } })
    const { test: limits } = project as { test: { testTimeout: number; hookTimeout: number } }
    expect(Math.min(limits.testTimeout, limits.hookTimeout)).toBeGreaterThanOrEqual(10 * MINUTES)
  }
})

test('no test has a shorter limit of its own', () => {
  const limits = /\btimeout: ([\d_]+)|^\}, ([\d_]+)\)/gm
  const short = files.filter(({ text }) =>
    [...text.matchAll(limits)].some(
      ([, named, last]) => Number((named ?? last ?? '').replaceAll('_', '')) < 10 * MINUTES,
    ),
  )
  expect(short.map(({ file }) => basename(file))).toEqual(ofTransactions)
})

test('no test reads a watch to decide', () => {
  expect(filesWith(/performance\.now|process\.hrtime|loadavg|Date\.now\(\) - /)).toEqual([])
})
