import { expect, test } from 'vitest'
import { errorLine, systemSentence } from '@/lib/commands/start/say.mjs'

const failure = (code: string) => Object.assign(new Error('no'), { code })

test('what the operating system refuses is said with its mend, and names the place', () => {
  expect(systemSentence(failure('EACCES'), '/kiosk/.data/secret')).toMatch(/^\/kiosk\/\.data cannot be written: /)
  expect(systemSentence(failure('ENOSPC'), '/kiosk/.data/secret')).toMatch(/^The disk is full: .* \/kiosk\/\.data /)
  expect(systemSentence(failure('ENOTDIR'), '/kiosk/.data')).toMatch(/^\/kiosk\/\.data is in the way/)
})

test('any other error is not explained away', () => {
  expect(systemSentence(failure('EWHAT'), '/kiosk')).toBeNull()
  expect(systemSentence(new RangeError('ours'), '/kiosk')).toBeNull()
})

test("the line that names an error is found in Node's report of it", () => {
  const report = 'node:internal/x:1\n    throw e\n\nError: Cannot find the recipe\n    at here\n\nNode.js v20.20.2\n'
  expect(errorLine(report)).toBe('Error: Cannot find the recipe')
  expect(errorLine('one thing\nanother')).toBe('another')
  expect(errorLine('')).toBe('')
})
