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

test('what it takes for many glasses and for a volume stands beside the figures, and nowhere unasked', () => {
  const asked = run([EXAMPLE, '--glasses', '30', '--spare', '0.15', '--to-ml', '1656', '--as', 'strained'])
  expect([asked.status, asked.stderr]).toEqual([0, ''])
  const told = JSON.parse(asked.stdout)
  // by hand from the file: 20 g of date syrup · 30 · 1.15, from 400 g of dates that gave 520 g
  expect(Object.keys(told.make)).toEqual(['glasses', 'lines', 'preparations', 'shopping'])
  expect(told.make.lines[1]).toEqual({ key: 'date', name: 'Date syrup', grams: expect.closeTo(690, 9) })
  const dates = told.make.shopping.find(({ name }: { name: string }) => name === 'Dates, stoned')
  expect(dates.grams).toBeCloseTo((400 * 690) / 520, 9)
  expect(Object.keys(told.scaled)).toEqual(['factor', 'basis', 'meltGrams', 'lines'])
  expect(told.scaled.basis).toBe('strained')
  const plain = JSON.parse(run([EXAMPLE]).stdout)
  expect([plain.make, plain.scaled]).toEqual([undefined, undefined])
})

test('a temperature that straining needs, and a batch nobody weighed, are asked for by name', () => {
  const file = JSON.parse(readFileSync(EXAMPLE, 'utf8'))
  file.lines[3].temperature = null
  delete file.preparations['cardamom-infusion'].outputGrams
  const input = JSON.stringify(file)
  const strained = run(['-', '--to-ml', '900', '--as', 'strained'], input)
  expect(strained).toMatchObject({ status: 2, stdout: '', stderr: expect.stringContaining('Evaporated milk') })
  const many = run(['-', '--glasses', '3'], input)
  expect(many).toMatchObject({ status: 2, stdout: '', stderr: expect.stringContaining('Cardamom infusion') })
  for (const { stderr } of [strained, many]) expect(stderr.trim().split('\n')).toHaveLength(1)
})

test.each([
  '--glasses 2.5',
  '--glasses 10001',
  '--glasses 2 --spare 15',
  '--spare 0.1',
  '--to-ml 0',
  '--to-ml 900 --as poured',
  '--as built',
  '--litres 2',
])('%s is refused in one line', (words) => {
  const { status, stdout, stderr } = run([EXAMPLE, ...words.split(' ')])
  expect([status, stdout, stderr.trim().split('\n').length]).toEqual([2, '', 1])
})
