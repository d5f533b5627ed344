import { expect, test } from 'vitest'
import { sayFigures, sayRehearsal } from '@/app/(house)/panels/say-figures'
import { PlanFiguresForm } from '@/lib/forms/plan-figures-form'
import type { PlanFigures } from '@/lib/tasks/plan/read-plan-figures'
import type { RehearsedPlanFigures } from '@/lib/tasks/plan/rehearse-plan'

const typed = (more: Record<string, string> = {}) =>
  PlanFiguresForm.parse({
    recipe: 'r',
    cups: '4',
    seats: '24',
    aim: 'best',
    kind: 'all-pairs',
    difference: '1',
    ...more,
  })
const spread = { sd: 1.4, from: 'assumed', panels: 0 } as const
const figures: PlanFigures = { spread, pairs: 6, tasters: 55, power: 0.4, perTasterMl: null, perCupMl: null }
const rehearsed: RehearsedPlanFigures['rehearsed'] = {
  panels: 1000,
  found: 0.5,
  cannotTell: 0.5,
  wrong: 0,
  tooFew: 0,
  namedBest: 0.2,
  aboveAll: 0.2,
  beaten: 0.01,
  anyFalse: 0.01,
  coverage: 0.96,
  asGood: null,
  notWorse: null,
  se: 0.016,
}
const best = { power: 0.8, panels: 1000, n: 70, low: 68, high: 73, most: 200 }
const played: RehearsedPlanFigures = { spread, rehearsed, best }
const linesFor = (more: Record<string, string>, answer: RehearsedPlanFigures | null = played) =>
  sayFigures(figures, typed(more), answer).lines

test('until it is rehearsed the formula for one pair stands there, and says that it is one', () => {
  const { lines, askRehearsal } = sayFigures(figures, typed())
  expect(lines.slice(0, 2)).toEqual([
    'About 55 tasters find a difference of 1.0 point between two named cups, four times out of five.',
    'With 24 seats the chance is 40 %.',
  ])
  expect(askRehearsal).toBe(true)
  expect(sayFigures(figures, typed({ aim: 'better', kind: 'one-pair' })).askRehearsal).toBe(false)
  expect(sayFigures({ ...figures, power: null }, typed({ seats: '' })).askRehearsal).toBe(false)
})

test('a rehearsal puts the chance that the best stands alone in its place, with its own error', () => {
  // by hand: 2 √(0.2 · 0.8 / 1000) = 2.5 in a hundred
  expect(linesFor({}).slice(0, 2)).toEqual([
    'With about 70 tasters one cup that is 1.0 point better than all others stands alone, four times out of five (68 to 73, as far as a rehearsal tells).',
    'With 24 seats the chance is 20 %, give or take 3: the plan was played 1,000 times.',
  ])
})

test('fewer cups each take more tasters, by what such a taster knows', () => {
  // by hand: (3 − 1)/(4 − 1) of it; 70 · 3/2, 68 · 3/2 and 73 · 3/2 rounded up
  expect(linesFor({ perTaster: '3' })[0]).toContain('With about 105 tasters one cup')
  expect(linesFor({ perTaster: '3' })[0]).toContain('(102 to 110, as far as a rehearsal tells, reckoned from')
})

test.each([
  [{ high: null }, '(68 or more, as far as a rehearsal tells)'],
  [{ n: null, low: 195, high: null }, 'It takes more than 200 tasters before one cup that is 1.0 point better'],
])('where it takes more than were looked at: %j', (more, words) => {
  expect(linesFor({}, { ...played, best: { ...best, ...more } })[0]).toContain(words)
})

test('played panels are told by what the result would say of the best', () => {
  const said = sayRehearsal({ ok: true, value: played }, typed(), figures)
  expect(said.hundred).toEqual({ found: 20, cannotTell: 79, wrong: 1 })
  expect(said.lines[0]).toBe(
    'If one cup is 1.0 point better than all others: of 100 panels like this about 20 let it stand alone, 79 cannot tell it from all others, 1 name another one better.',
  )
  expect(said.figures?.[1]).toContain('the chance is 20 %')
  const better = sayRehearsal({ ok: true, value: played }, typed({ aim: 'better', kind: 'one-pair' }), figures)
  expect(better.hundred).toEqual({ found: 50, cannotTell: 50, wrong: 0 })
  expect(better.figures).toBeNull()
})

test.each([
  ['broke-off', 'stands in the café’s log'],
  ['too-long', 'longer than a minute'],
  ['too-many', 'Try again in a moment'],
  ['overtaken', 'newer question'],
  ['too-little', 'Say the cups'],
] as const)('what was not played says so: %s', (reason, words) => {
  const said = sayRehearsal({ ok: false, reason }, typed(), figures)
  expect(said).toMatchObject({ hundred: null, figures: null })
  expect(said.lines.join()).toContain(words)
})
