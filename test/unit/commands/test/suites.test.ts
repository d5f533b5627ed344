import { expect, test } from 'vitest'
import { countReport, readWords, SUITES } from '@/lib/commands/test/suites.mjs'

const file = (status: string, ...tests: string[]) => ({
  status,
  assertionResults: tests.map((each) => ({ status: each })),
})

test('tests are counted over all files, skipped ones apart', () => {
  const report = { testResults: [file('passed', 'passed', 'passed', 'pending'), file('failed', 'passed', 'failed')] }
  expect(countReport(report)).toEqual({ passed: 3, failed: 1, skipped: 1 })
})

test('a file that could not be loaded is a failure', () => {
  expect(countReport({ testResults: [file('passed', 'passed'), file('failed')] })).toEqual({
    passed: 1,
    failed: 1,
    skipped: 0,
  })
})

test('a suite without a test, and one that left no report, is a failure', () => {
  expect(countReport({ testResults: [] })).toMatchObject({ passed: 0, failed: 1 })
  expect(countReport(null)).toMatchObject({ passed: 0, failed: 1 })
})

const names = (...words: string[]) => readWords(words)?.suites.map((suite) => suite.name)

test('suites are chosen by name, and a wrong name or word is not passed over', () => {
  expect(names('--only', 'e2e,types')).toEqual(['types', 'e2e'])
  expect(names('--only', 'unit', 'lint')).toEqual(['lint', 'unit'])
  expect(readWords(['--only', 'units'])).toBeNull()
  expect(readWords(['unit'])).toBeNull()
  expect(readWords(['--quick'])).toBeNull()
  expect(readWords(['--counts'])).toBeNull()
})

test('every suite is run by npm test or by npm run test:long, and by one of them only', () => {
  const [everyChange, long] = [names() ?? [], names('--long') ?? []]
  expect([...everyChange, ...long]).toEqual(SUITES.map(({ name }) => name))
  expect(everyChange.filter((name) => long.includes(name))).toEqual([])
  expect(long).toContain('long')
  expect(readWords(['--long', '--counts', 'here'])).toMatchObject({ counts: 'here' })
})
