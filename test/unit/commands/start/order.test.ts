import { expect, test } from 'vitest'
import { isNewEnough, readOrder } from '@/lib/commands/start/order.mjs'

test('what a person can ask for', () => {
  expect(readOrder([])).toEqual({ act: 'serve' })
  expect(readOrder(['--dev'])).toEqual({ act: 'dev' })
  expect(readOrder(['--demo'])).toEqual({ act: 'demo' })
  expect(readOrder(['--prepare'])).toEqual({ act: 'prepare' })
  expect(readOrder(['--run', 'lib/commands/bench.ts', '--cups', '5'])).toEqual({
    act: 'run',
    file: 'lib/commands/bench.ts',
    args: ['--cups', '5'],
  })
})

test('anything else makes no sense', () => {
  for (const words of [['--run'], ['--devel'], ['dev'], ['--dev', '--demo'], ['']]) expect(readOrder(words)).toBeNull()
})

test('Node is new enough from the version that package.json names', () => {
  expect(isNewEnough('v20.19.0', '>=20.19')).toBe(true)
  expect(isNewEnough('v22.0.0', '>=20.19')).toBe(true)
  expect(isNewEnough('v20.18.3', '>=20.19')).toBe(false)
  expect(isNewEnough('v18.20.0', '>=20.19')).toBe(false)
})
