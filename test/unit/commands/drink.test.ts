import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { readTrialFile } from '@/lib/forms/trial-of-file'
import { nestedFile } from '../../support/nested-file'

const run = (args: string[], input = '') =>
  spawnSync(process.execPath, ['--import', 'tsx', 'lib/commands/drink.ts', ...args], { encoding: 'utf8', input })

const EXAMPLE = 'lib/commands/example-trial.json'

test('the command prints one JSON object, with the figures the page computes', () => {
  const { status, stdout, stderr } = run([EXAMPLE])
  expect([status, stderr]).toEqual([0, ''])
  const trial = readTrialFile(readFileSync(EXAMPLE, 'utf8'))
  const figures = trial.ok ? computeBuild(trial.value) : {}
  expect(JSON.parse(stdout)).toMatchObject(
    JSON.parse(JSON.stringify({ kind: 'sipwright-figures', version: 1, ...figures })),
  )
})

test('bad input is one line naming file, place and fault, nothing printed, exit 2', () => {
  const file = JSON.parse(readFileSync(EXAMPLE, 'utf8'))
  file.lines[4].targetGrams = -200
  const path = join(mkdtempSync(join(tmpdir(), 'drink-')), 'trial.json')
  writeFileSync(path, JSON.stringify(file))
  expect(run([path])).toMatchObject({
    status: 2,
    stdout: '',
    stderr: `${path}: lines[4].targetGrams: must be more than 0\n`,
  })
})

test('what is no JSON is refused as a whole', () => {
  expect(run(['-'], 'not json')).toMatchObject({ status: 2, stdout: '', stderr: '-: the whole file: is not JSON\n' })
})

test.each([[[]], [['no-such-file.json']]])('without a file that can be read (%j) it says so in one line', (args) => {
  const { status, stdout, stderr } = run(args)
  expect([status, stdout, stderr.trim().split('\n').length]).toEqual([2, '', 1])
})

test('a file nested deeper than any drink is refused before it is worked through', () => {
  expect(run(['-'], JSON.stringify(nestedFile(18, 2)))).toMatchObject({
    status: 2,
    stdout: '',
    stderr: '-: preparations: are nested 18 deep; at most 12 may stand one inside the other\n',
  })
})

test.each([
  ['wide', `{"lines": [${'0,'.repeat(600_000)}0]}`],
  ['deep', '['.repeat(1_200_000)],
])('a file that is larger than any house takes, %s, is refused unread', (_, content) => {
  const { status, stdout, stderr } = run(['-'], content)
  const says = `-: the whole file: has ${content.length} bytes; a trial file has 1048576 at most\n`
  expect({ status, stdout, stderr }).toEqual({ status: 2, stdout: '', stderr: says })
})
