import { expect, test } from 'vitest'
import { likingQuestion } from '@/lib/panel/question'
import { AddSeatsForm, PanelForm, besideTyped, withoutHidden } from '@/lib/forms/panel-form'

const typed = Object.freeze({
  title: 'First look',
  publicTitle: 'Two cold coffees',
  question: 'Is one liked better?',
  cups: ['a', 'b'],
  seatCount: '24',
  aim: 'best',
  smallestDifference: '1',
})

const problemsOf = (more: Record<string, unknown>) => {
  const read = PanelForm.safeParse({ ...typed, ...more })
  return read.success ? [] : read.error.issues.map((issue) => issue.path.join('.'))
}

test('points are tenths, by comma or by point', () => {
  expect(PanelForm.parse({ ...typed, smallestDifference: '0,5' })).toMatchObject({ smallestDifference: 5 })
  const asGood = { ...typed, aim: 'as-good', primaryKind: 'against-house', notWorseMargin: '0.3' }
  expect(PanelForm.parse(asGood)).toMatchObject({ notWorseMargin: 3 })
})

test('what is left empty is null, and blank aspects are none', () => {
  expect(PanelForm.parse({ ...typed, aspects: ['Sweetness', undefined, ' '] })).toMatchObject({
    aspects: [likingQuestion('Sweetness')],
    duplicate: null,
    notWorseMargin: null,
    sampleMl: null,
    seenThrough: null,
    nothingSeen: false,
    cupsPerTaster: null,
  })
})

test.each([
  ['seatCount', '0'],
  ['seatCount', '201'],
  ['seatCount', '-3'],
  ['seatCount', '2.5'],
  ['seatCount', 'many'],
  ['smallestDifference', '0'],
  ['smallestDifference', '8'],
  ['smallestDifference', '-1'],
  ['smallestDifference', '1e3'],
  ['notWorseMargin', 'x'],
  ['sampleMl', 'x'],
  ['sampleMl', '4'],
  ['sampleMl', '251'],
  ['primaryKind', 'best'],
  ['aim', 'prettiest'],
  ['cupsPerTaster', '1'],
  ['cupsPerTaster', '7'],
  ['nothingSeen', 'perhaps'],
  ['question', '  '],
  ['publicTitle', ''],
])('%s cannot be “%s”', (field, value) => {
  expect(problemsOf({ [field]: value })).toEqual([field])
})

test('a plan’s own problems stand beside their fields', () => {
  expect(problemsOf({ cups: ['a'] })).toEqual(['cups'])
  expect(problemsOf({ cups: [] })).toEqual(['cups'])
  expect(problemsOf({ cups: ['a', 'b', 'd'], duplicate: 'c' })).toEqual(['duplicate'])
  expect(problemsOf({ duplicate: 'a' })).toEqual(['duplicate'])
  expect(problemsOf({ cups: ['a', 'b', 'd'], duplicate: 'a' })).toEqual([])
  expect(problemsOf({ aim: 'better', primaryKind: 'one-pair', pairA: 'a', pairB: 'a' })).toEqual(['pairB'])
  expect(problemsOf({ aim: 'better', primaryKind: 'against-house' })).toEqual([])
  expect(problemsOf({ seenThrough: 'foam', nothingSeen: 'on' })).toEqual(['seenThrough'])
})

test('the best of several compares all of them, whatever else was chosen before', () => {
  const read = PanelForm.parse({ ...typed, primaryKind: 'one-pair', pairA: 'a', pairB: 'b', notWorseMargin: '0.5' })
  expect(read).toMatchObject({ aim: 'best', primaryKind: 'all-pairs', notWorseMargin: null })
})

test('“better” and “as good” ask what with, and by how much', () => {
  expect(problemsOf({ aim: 'better' })).toEqual(['primaryKind'])
  expect(problemsOf({ aim: 'better', primaryKind: 'all-pairs' })).toEqual(['primaryKind'])
  expect(problemsOf({ aim: 'better', primaryKind: 'against-house', smallestDifference: undefined })).toEqual([
    'smallestDifference',
  ])
  expect(problemsOf({ aim: 'as-good', primaryKind: 'against-house' })).toEqual(['notWorseMargin'])
  const asGood = { ...typed, aim: 'as-good', primaryKind: 'against-house', notWorseMargin: '0.5' }
  expect(PanelForm.parse({ ...asGood, smallestDifference: undefined })).toMatchObject({
    smallestDifference: 5,
    notWorseMargin: 5,
  })
})

test('who gets as many cups as there are gets them all', () => {
  const cups = ['a', 'b', 'c']
  expect(PanelForm.parse({ ...typed, cups, cupsPerTaster: '3' }).cupsPerTaster).toBeNull()
  expect(PanelForm.parse({ ...typed, cups, cupsPerTaster: '2' }).cupsPerTaster).toBe(2)
})

test('seats are added by the whole number', () => {
  expect(AddSeatsForm.safeParse({ howMany: '3' })).toMatchObject({ success: true, data: { howMany: 3 } })
  for (const howMany of ['0', '51', '1.5', '', 'x']) expect(AddSeatsForm.safeParse({ howMany }).success).toBe(false)
})

test('further questions: each kind with what it needs, a blank row is none', () => {
  const aspects = (rows: readonly object[]) => PanelForm.parse({ ...typed, aspects: rows }).aspects
  expect(
    aspects([
      { name: 'Aftertaste', kind: 'liking-9', low: 'left over', words: 'left, over' },
      { kind: 'just-right-5' },
      { name: 'Sweetness', kind: 'just-right-5', low: ' not sweet enough ', high: '' },
      { name: 'Taste', kind: 'words', words: 'nutty\nfloral, flat;\n' },
    ]),
  ).toEqual([
    likingQuestion('Aftertaste'),
    { name: 'Sweetness', kind: 'just-right-5', low: 'not sweet enough', high: null, words: [] },
    { name: 'Taste', kind: 'words', low: null, high: null, words: ['nutty', 'floral', 'flat'] },
  ])
  expect(problemsOf({ aspects: [{ name: 'Taste', kind: 'words', words: 'nutty' }] })).toEqual(['aspects.0.words'])
  expect(problemsOf({ aspects: [{ kind: 'words', words: 'nutty, floral' }] })).toEqual(['aspects.0.name'])
  expect(problemsOf({ aspects: [{ name: 'Taste', kind: 'words', words: `nutty, ${'x'.repeat(31)}` }] })).toEqual([
    'aspects.0.words',
  ])
  const alike = { name: 'Sweetness', kind: 'just-right-5', low: 'too much', high: 'Too much' }
  expect(problemsOf({ aspects: [{ name: 'Body' }, alike] })).toEqual(['aspects.1.high'])
  // asked once: the second of two, and what is asked always, beside its own name
  const rows = ['Body', '', 'Overall liking', ' body '].map((name) => ({ name }))
  expect(problemsOf({ aspects: rows })).toEqual(['aspects.2.name', 'aspects.3.name'])
  expect(problemsOf({ aspects: [{ name: 'Taste', kind: 'stars' }] })).toEqual(['aspects.0'])
})

test('what a plan of two cups hides is not read: a slip there could be neither seen nor mended', () => {
  const form = new FormData()
  const typed = { kind: 'choice', share: '65', cupsPerTaster: '99', smallestDifference: 'much', 'aspects[0].name': 'x' }
  for (const [name, value] of Object.entries({ ...typed, cups: 'a' })) form.append(name, value)
  form.append('cups', 'b')
  const shown = withoutHidden(form)
  expect([...shown.keys()]).toEqual(['kind', 'share', 'cups', 'cups'])
  form.append('above', '75')
  form.set('kind', 'rank')
  expect([...withoutHidden(form).keys()]).toEqual(['kind', 'cups', 'cups', 'above'])
  form.set('kind', 'liking')
  expect([...withoutHidden(form).keys()]).toEqual(
    [...form.keys()].filter((name) => name !== 'share' && name !== 'above'),
  )
  form.delete('kind')
  expect(withoutHidden(form)).toBe(form)
})

test('a stored plan stands beside a typed one without what both hide; of another kind it stands whole', () => {
  const stored = { kind: 'liking', share: '65', odd: { aim: 'differ' }, cups: ['a', 'b'], duplicate: '' }
  const form = new FormData()
  form.set('kind', 'liking')
  expect(besideTyped(stored, form)).toEqual({ kind: 'liking', cups: ['a', 'b'], duplicate: '' })
  expect(besideTyped({ ...stored, kind: 'difference' }, form)).toEqual({ ...stored, kind: 'difference' })
  form.set('kind', 'difference')
  const apart = besideTyped({ ...stored, kind: 'difference' }, form)
  expect(apart).toEqual({ kind: 'difference', odd: { aim: 'differ' }, cups: ['a', 'b'] })
})
