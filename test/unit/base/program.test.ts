import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { PROGRAM_VERSION } from '@/lib/base/program'

test('the version that evidence is kept with is that of the package', () => {
  const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string }
  expect(PROGRAM_VERSION).toBe(version)
})
