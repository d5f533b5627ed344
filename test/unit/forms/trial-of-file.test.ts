import { readFileSync } from 'node:fs'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { gramsOfShares } from '@/lib/drink/shares'
import type { TrialBuild } from '@/lib/drink/trial'
import { fileOfTrial, readKeptSheet, readTrialFile } from '@/lib/forms/trial-of-file'
import { aLine, aTrial, water } from '../../support/drink-lines'
import { nestedFile } from '../../support/nested-file'

const example = () => JSON.parse(readFileSync('lib/commands/example-trial.json', 'utf8'))
const read = (file: unknown) => readTrialFile(JSON.stringify(file))

test('a trial written out and read again gives the same figures', () => {
  const first = read(example())
  if (!first.ok) throw new Error(first.detail?.message)
  const second = read(fileOfTrial(first.value))
  if (!second.ok) throw new Error(second.detail?.message)
  expect(second.value).toEqual(first.value)
  expect(computeBuild(second.value)).toEqual(computeBuild(first.value))
})

test('a batch poured twice is written once', () => {
  const file = example()
  file.lines.push({ ...file.lines[1], key: 'more' })
  const trial = read(file)
  expect(trial.ok && Object.keys(fileOfTrial(trial.value).preparations ?? {}).sort()).toEqual([
    'cardamom-infusion-i-02',
    'cardamom-syrup-c-07',
    'date-syrup-d-12',
  ])
})

test('an amount typed by volume becomes grams through its density', () => {
  const trial = read(example())
  expect(trial.ok && trial.value.lines[3]?.targetGrams).toBeCloseTo(63.9, 9)
})

test('presses of a pump are written as the ml that they gave, and read again as presses', () => {
  const first = read(example())
  if (!first.ok) throw new Error(first.detail?.message)
  const [line, ...rest] = first.value.lines
  if (!line) throw new Error('the example has lines')
  // by hand: 20.128 g at 1.258 g/ml are 16 ml
  const pumped = { ...line, targetGrams: 20.128, typed: { amount: 2, unit: 'pump', density: 1.258 } }
  const file = fileOfTrial({ ...first.value, lines: [pumped, ...rest] })
  expect(file.lines[0]?.typed).toEqual({ amount: 16, unit: 'ml', density: 1.258, pumps: 2 })
  const again = read(file)
  expect(again.ok && again.value.lines[0]).toEqual(pumped)
})

const plain = (more: object) => ({
  ...example(),
  brew: null,
  preparations: {},
  lines: [
    { name: 'Water', kind: 'water', targetGrams: 180 },
    { name: 'Milk', kind: 'milk', ...more },
  ],
})

/* By hand: 10 % leave 90 % for 180 g, a glass of 200 g: 20 g. Half a part of 40 g is 20 g. */
test.each([
  ['percent', { amount: 10, unit: 'percent' }, {}],
  ['part', { amount: 0.5, unit: 'part' }, { partGrams: 40 }],
])('an amount in %s gives the grams, and is written and read again as it was typed', (_, typed, more) => {
  const first = read({ ...plain({ typed }), ...more })
  if (!first.ok) throw new Error(first.detail?.message)
  expect(first.value.lines[1]).toMatchObject({
    targetGrams: expect.closeTo(20, 9),
    typed: { density: null, ...typed, ...more },
  })
  const file = fileOfTrial(first.value)
  expect(file).toMatchObject({ ...more, lines: [{}, { typed }] })
  expect(read(file)).toEqual(first)
})

test.each([
  ['all of the glass', { typed: { amount: 100, unit: 'percent' } }, 'lines[1].typed', 'nothing is left'],
  [
    'another share than its grams',
    { targetGrams: 30, typed: { amount: 10, unit: 'percent' } },
    'lines[1].typed',
    'another share',
  ],
  ['a part of nobody knows what', { typed: { amount: 1, unit: 'part' } }, 'lines[1].typed.unit', 'needs partGrams'],
])('a line that is %s is refused where it stands', (_, more, path, message) => {
  expect(read(plain(more))).toMatchObject({
    ok: false,
    reason: 'impossible',
    detail: { path, message: expect.stringContaining(message) },
  })
})

test('whatever is typed in shares and parts, what the house keeps of it is written out and read again the same', () => {
  const shares = fc.array(fc.integer({ min: 10, max: 19_000 }), { minLength: 1, maxLength: 5 })
  const gram = fc.integer({ min: 20_000, max: 3_000_000 })
  fc.assert(
    fc.property(
      gram,
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 2_000_000 }),
      shares,
      (mg, parts, part, all) => {
        const partGrams = part / 1000
        const milligram = (grams: number) => Math.round(1000 * grams) / 1000
        const typed = { amount: parts, unit: 'part', density: null, partGrams }
        const others = [water(mg / 1000), aLine({ name: 'Milk', targetGrams: milligram(parts * partGrams), typed })]
        const asked = all.map((amount, at) =>
          aLine({ name: `Share ${at}`, typed: { amount: amount / 1000, unit: 'percent', density: null } }),
        )
        const grams = gramsOfShares([...others, ...asked], null)
        if (!grams.ok) throw new Error(grams.reason)
        const lines = [
          ...others,
          ...asked.map((line) => ({ ...line, targetGrams: milligram(grams.value.get(line.key) ?? 0) })),
        ]
        const again = read(fileOfTrial(aTrial(lines)))
        expect(again.ok ? again.value.lines : again).toEqual(lines)
      },
    ),
  )
})

test('what goes into a preparation is no share of the glass', () => {
  const file = example()
  const [input] = file.preparations['date-syrup'].inputs
  delete input.targetGrams
  input.typed = { amount: 10, unit: 'percent' }
  expect(read(file)).toMatchObject({ detail: { path: 'preparations.date-syrup.inputs[0].typed.unit' } })
})

test.each([
  ['not JSON', () => '{', 'not-json', 'the whole file', 'is not JSON'],
  ['nothing', () => ({}), 'not-a-trial', 'kind', 'must be "sipwright-trial"'],
  ['a missing name', (f) => (delete f.name, f), 'not-a-trial', 'name', 'is missing; it should be text'],
  [
    'words for a number',
    (f) => ((f.lines[0].targetGrams = 'a splash'), f),
    'not-a-trial',
    'lines[0].targetGrams',
    'should be a number',
  ],
  [
    'an amount of zero',
    (f) => ((f.lines[0].targetGrams = 0), f),
    'not-a-trial',
    'lines[0].targetGrams',
    'must be more than 0',
  ],
  [
    'Brix over 100',
    (f) => ((f.preparations['date-syrup'].brixMeasured = 101), f),
    'not-a-trial',
    'preparations.date-syrup.brixMeasured',
    'must be 100 or less',
  ],
  [
    'an unknown field',
    (f) => ((f.lines[1].grammes = 5), f),
    'not-a-trial',
    'lines[1]',
    'has a field we do not know: grammes',
  ],
  [
    'an unknown preparation',
    (f) => ((f.lines[1].preparation = 'x'), f),
    'not-a-trial',
    'lines[1].preparation',
    'names a preparation that is not in this file: x',
  ],
  [
    'a volume without a density',
    (f) => ((f.lines[3].typed.density = null), (f.lines[3].density = null), f),
    'impossible',
    'lines[3]',
    'needs targetGrams, or a typed amount (with a density if it is a volume)',
  ],
  [
    'a loop',
    (f) => ((f.preparations['cardamom-infusion'].inputs[1].preparation = 'cardamom-syrup'), f),
    'loop',
    'preparations.cardamom-syrup',
    'contains itself: cardamom-syrup → cardamom-infusion → cardamom-syrup',
  ],
  [
    'an output heavier than its inputs',
    (f) => ((f.preparations['date-syrup'].outputGrams = 2000), f),
    'impossible',
    'lines[1].preparation.outputGrams',
    'Date syrup weighs 2000 g after, but only 1000 g went in. Was the pot tared?',
  ],
  [
    'a ratio not above the retention',
    (f) => ((f.brew.ratio = 2), f),
    'impossible',
    'brew.ratio',
    'The grounds keep 2.1 g of water per g of coffee, so 1:2 would leave nothing to pour.',
  ],
  ['a key used twice', (f) => ((f.lines[1].key = 'coffee'), f), 'impossible', 'lines[1].key', 'is used twice: coffee'],
] as [string, (file: ReturnType<typeof example>) => unknown, string, string, string][])(
  '%s is refused by its place',
  (_what, spoil, reason, path, message) => {
    const spoilt = spoil(example())
    const trial = typeof spoilt === 'string' ? readTrialFile(spoilt) : read(spoilt)
    expect(trial).toEqual({ ok: false, reason, detail: { path, message } })
  },
)

const wide = (preparations: number) => {
  const file = nestedFile(1, 1)
  const one = file.preparations['level-1']
  const more = Array.from({ length: preparations - 1 }, (_, at) => [
    `other-${at}`,
    { ...one, inputs: [{ name: 'Water', kind: 'water', targetGrams: 200 }] },
  ])
  return { ...file, preparations: { ...file.preparations, ...Object.fromEntries(more) } }
}
const long = (lines: number) => ({
  ...nestedFile(1, 1),
  lines: Array.from({ length: lines }, () => ({ name: 'Water', kind: 'water', targetGrams: 1 })),
})

// The figures of the limits stand in the manual and in the schema; the two lines of the innermost preparation count.
test.each<[string, unknown, unknown, string, string]>([
  [
    'levels',
    nestedFile(12, 2),
    nestedFile(13, 2),
    'preparations',
    'are nested 13 deep; at most 12 may stand one inside the other',
  ],
  ['preparations', wide(100), wide(101), 'preparations', 'are 101; a file holds at most 100'],
  ['lines', long(298), long(299), 'lines', 'are 301; a file holds at most 300, those of its preparations counted'],
])('the most %s a file may hold are read, one more is refused in words', (_what, most, more, path, message) => {
  expect(read(most)).toMatchObject({ ok: true })
  expect(read(more)).toEqual({ ok: false, reason: 'too-large', detail: { path, message } })
})

test.each<[string, unknown]>([
  ['18 levels, each poured twice into the next', nestedFile(18, 2)],
  ['a chain of 90 levels', nestedFile(90, 1)],
  ['a chain of 3 400 levels', nestedFile(3400, 1)],
  ['10 000 plain lines', long(10_000)],
])('%s: refused in words before it is worked through', (_what, file) => {
  expect(read(file)).toMatchObject({ ok: false, reason: 'too-large' })
})

test('what is not what it seems is refused by its place as before', () => {
  expect(read({ ...nestedFile(1, 1), preparations: [] })).toMatchObject({
    reason: 'not-a-trial',
    detail: { path: 'preparations' },
  })
  expect(read({ ...nestedFile(1, 1), lines: { length: 5_000_000 } })).toMatchObject({
    reason: 'not-a-trial',
    detail: { path: 'lines' },
  })
  for (const odd of [null, 7, 'text', [], [[[[]]]]]) expect(read(odd)).toMatchObject({ reason: 'not-a-trial' })
})

test('a name that reaches into every object is no preparation', () => {
  const file = JSON.stringify(nestedFile(1, 1)).replaceAll('level-1', '__proto__')
  expect(readTrialFile(file)).toMatchObject({ ok: false, reason: 'not-a-trial' })
  for (const name of ['constructor', 'toString', 'hasOwnProperty']) {
    const asked = {
      ...nestedFile(1, 1),
      preparations: {},
      lines: [{ name: 'X', kind: 'other', targetGrams: 1, preparation: name }],
    }
    expect(read(asked)).toMatchObject({ ok: false, reason: 'not-a-trial' })
  }
})

test('a file that begins with a byte order mark is read', () => {
  expect(readTrialFile(`\uFEFF${JSON.stringify(example())}`)).toMatchObject({ ok: true })
})

test('a sheet the house kept before there were limits is still read: each preparation once, 50 g of half sugar', () => {
  for (const [levels, times] of [
    [18, 2],
    [500, 1],
  ] as const) {
    const kept = readKeptSheet(nestedFile(levels, times))
    if (!kept.ok) throw new Error(kept.detail?.message)
    const { sugars } = computeBuild(kept.value)
    expect(sugars.known && sugars.value).toBeCloseTo(25, 6)
    expect(Object.keys(fileOfTrial(kept.value).preparations ?? {})).toHaveLength(levels)
  }
})

test('what was used in the place of a line, and what stands beside the lines, comes back from the file', () => {
  const trial = read(example())
  if (!trial.ok) throw new Error(trial.reason)
  const [first, ...rest] = trial.value.lines
  if (!first) throw new Error('the example has lines')
  const made: TrialBuild = {
    ...trial.value,
    level: 'economy',
    lines: [{ ...first, insteadOf: 'A dearer coffee' }, ...rest],
    beside: rest.slice(0, 1).map((line) => ({ line, insteadOf: 'Another syrup', level: null, why: 'used' as const })),
  }
  expect(read(JSON.parse(JSON.stringify(fileOfTrial(made))))).toEqual({ ok: true, value: made })
})

test('the file of a trial that knows no cost level has no word of one', () => {
  const trial = read(example())
  const file = trial.ok ? JSON.stringify(fileOfTrial(trial.value)) : ''
  for (const word of ['level', 'insteadOf', 'beside']) expect(file).not.toContain(`"${word}"`)
})

test('a density that nobody weighed is still assumed where the file is read; of another the file has no word', () => {
  const first = read(example())
  if (!first.ok) throw new Error(first.detail?.message)
  const plain = first.value
  const assumed = { ...plain, lines: plain.lines.map((line) => ({ ...line, densityIsAssumed: true })) }
  const back = readTrialFile(JSON.stringify(fileOfTrial(assumed)))
  expect(back).toEqual({ ok: true, value: assumed })
  expect(readKeptSheet(JSON.parse(JSON.stringify(fileOfTrial(assumed))))).toEqual({ ok: true, value: assumed })
  expect(JSON.stringify(fileOfTrial(plain))).not.toContain('densityIsAssumed')
})
