import { spawnSync } from 'node:child_process'
import { closeSync, existsSync, openSync } from 'node:fs'
import { expect, test } from 'vitest'
import { typescriptWords } from '@/lib/commands/start/typescript.mjs'

const run = (output: number | 'pipe') =>
  spawnSync(process.execPath, typescriptWords('test/support/report-two-faults.ts', []), {
    stdio: ['ignore', output, 'pipe'],
    encoding: 'utf8',
  })

const faultsIn = (text: string) => [...text.matchAll(/"fault":"([\w-]{8})"/g)].map((match) => match[1] ?? '')

test('a fault is written down once, under the number that the person was told', () => {
  const { stdout, stderr } = run('pipe')
  const [, ...told] = stderr.trim().split(' ')
  expect(told).toHaveLength(2)
  expect(faultsIn(stdout)).toEqual(told)
  expect(faultsIn(stderr)).toEqual([])
})

test.runIf(existsSync('/dev/full'))('a fault that the log has no room for goes to the error stream', () => {
  const full = openSync('/dev/full', 'w')
  const { stderr, status } = run(full)
  closeSync(full)
  const told = /^told (\S+) (\S+)$/m.exec(stderr)?.slice(1)
  expect(status).toBe(0)
  expect(told).toHaveLength(2)
  expect(faultsIn(stderr)).toEqual(told)
})
