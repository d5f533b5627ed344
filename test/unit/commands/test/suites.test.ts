import { expect, test } from 'vitest'
import { chooseSuites, countReport, SUITES } from '@/lib/commands/test/suites.mjs'

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

test('suites are chosen by name, and a wrong name is not passed over', () => {
  expect(chooseSuites([])).toBe(SUITES)
  expect(chooseSuites(['--only', 'e2e,types'])?.map((suite) => suite.name)).toEqual(['types', 'e2e'])
  expect(chooseSuites(['--only', 'unit', 'lint'])?.map((suite) => suite.name)).toEqual(['lint', 'unit'])
  expect(chooseSuites(['--only', 'units'])).toBeNull()
  expect(chooseSuites(['unit'])).toBeNull()
})
