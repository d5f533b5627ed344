import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { readFrozenSheet, writeFrozenSheet } from '@/lib/forms/frozen-sheet'
import { fileOfTrial, readTrialFile } from '@/lib/forms/trial-of-file'
import { aBatch, aBrew, aLine, aTrial, grounds, ice, per100, sugar, water } from '../../support/drink-lines'

const syrup = aBatch([sugar(100), water(100)], { outputGrams: 190 })
const trial = aTrial(
  [
    grounds(15),
    aLine({ name: 'Milk', kind: 'milk', temperature: 5, density: 1.03 }),
    aLine({ key: 'syrup', name: 'Syrup', kind: 'sweetener', preparation: syrup, targetGrams: 20 }),
    ice(120),
  ],
  { brew: aBrew(), vessel: { name: 'Tall', brimMl: 473, fillMl: 450 } },
)

test('a sheet comes back as it was frozen, with the figures of that day', () => {
  const figures = computeBuild(trial)
  const read = readFrozenSheet(writeFrozenSheet(trial, figures))
  if (!read.ok) throw new Error(read.reason)
  expect(read.value.build).toEqual(trial)
  const { allergens: _labels, cautions: _cautions, problems: _problems, ...numbers } = figures
  expect(read.value.figures).toEqual(numbers)
})

test('what is known of a figure that is not known whole comes back too', () => {
  const partly = { ...trial, lines: [...trial.lines, aLine({ key: 'v', name: 'Vanilla', composition: null })] }
  const { caffeine } = computeBuild(partly)
  expect(caffeine).toHaveProperty('atLeast')
  const read = readFrozenSheet(writeFrozenSheet(partly, computeBuild(partly)))
  expect(read.ok && read.value.figures?.caffeine).toEqual(caffeine)
})

test('a sheet of before, the bare exchange file, is read and has no figures beside', () => {
  const read = readFrozenSheet(JSON.stringify(fileOfTrial(trial)))
  expect(read).toMatchObject({ ok: true, value: { build: trial, figures: null } })
})

test('the file that leaves the house has not changed for it', () => {
  expect(readTrialFile(writeFrozenSheet(trial, computeBuild(trial)))).toMatchObject({ ok: false })
  expect(readTrialFile(JSON.stringify(fileOfTrial(trial)))).toMatchObject({ ok: true, value: trial })
})

test.each([
  ['extraction of nothing', { ...trial, brew: aBrew({ extractionPercent: 0 }) }],
  ['extraction of everything and more', { ...trial, brew: aBrew({ extractionPercent: 130 }) }],
  ['a ratio of nothing', { ...trial, brew: aBrew({ ratio: 0 }) }],
  ['grounds that keep 25 times their weight', { ...trial, brew: aBrew({ retention: 25, ratio: 30 }) }],
  ['a line of nothing', aTrial([aLine({ targetGrams: 0, weighedGrams: 0 })])],
  ['a line of ninety tonnes', aTrial([aLine({ targetGrams: 90_000_000 })])],
  ['a density no drink has', aTrial([aLine({ density: 2500 })])],
  ['more sugar than there is', aTrial([sugar(5, { composition: per100({ sugars: 140 }) })])],
  ['ice above its melting point', aTrial([ice(100)], { iceTemperature: 4 })],
  ['no line at all', aTrial([])],
  ['an empty name', aTrial([aLine({ name: '' })], { name: '' })],
])('what is kept is read by its shape: %s', (_what, odd) => {
  const read = readFrozenSheet(JSON.stringify(fileOfTrial(odd)))
  expect(read).toMatchObject({ ok: true, value: { build: odd } })
})

test('figures that cannot be read leave the sheet as it is', () => {
  const text = writeFrozenSheet(trial, computeBuild(trial))
  const broken = { ...(JSON.parse(text) as object), figures: { totalMass: 'heavy' } }
  expect(readFrozenSheet(JSON.stringify(broken))).toMatchObject({ ok: true, value: { build: trial, figures: null } })
})

test.each(['', '{', 'null', '[]', '{"kind":"sipwright-frozen-trial","version":9}', '{"kind":"sipwright-trial"}'])(
  'what is no sheet is a reason, never a throw: %j',
  (text) => {
    expect(readFrozenSheet(text).ok).toBe(false)
  },
)
