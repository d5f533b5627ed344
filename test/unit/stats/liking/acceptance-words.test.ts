import { expect, test } from 'vitest'
import { acceptanceMethod, firstMethod, modelFormula, readingNotes } from '@/lib/stats/liking/acceptance-words'
import { modelPairs } from '@/lib/stats/liking/cup-pairs'
import { likingReading } from '@/lib/stats/liking/liking-reading'
import { scoreTable } from '@/lib/stats/liking/score-table'
import { smallPanel } from '../../../support/small-panel'

test('the formula names session and taster by cup only where they are in the model', () => {
  const { table, rows } = smallPanel()
  expect(modelFormula(table, 'none')).toBe('score ~ cup + (1 | taster)')
  const sessions = scoreTable(
    rows.map((row, i) => ({ ...row, session: i % 2 ? 'x' : 'y' })),
    true,
  )
  expect(modelFormula(sessions, 'own variance')).toBe('score ~ cup + session + (1 | taster) + (1 | taster:cup)')
})

const rules = { level: 0.95, margin: null, marginLevel: 0.95, step: 1 }

test('the method says how claims and the model’s own tests came about', () => {
  const plain = acceptanceMethod('satterthwaite', false, 3, rules)
  expect(plain).toMatch(/joint intervals at 95 % over 3 planned pairs \(Bonferroni\).*CR2.*Satterthwaite/)
  expect(plain).not.toMatch(/Dunnett|margin/)
  const [claims = '', beside = ''] = plain.split('beside, no claim rests on it')
  expect(claims).not.toMatch(/Holm|Tukey|paired/)
  expect(beside).toMatch(/Holm and Tukey.*paired t test.*Wilson/)
  expect(acceptanceMethod('kenward-roger', true, 1, { ...rules, level: 0.9, margin: 1, marginLevel: 0.8 })).toMatch(
    /90 % over 1 planned pair .*margin.*80 %.*Kenward–Roger.*Dunnett/,
  )
})

test('the first rule’s method says on which basis its verdicts rest', () => {
  expect(firstMethod('satterthwaite', true, 0.95)).toMatch(/Satterthwaite.*95 %.*own differences/)
  expect(firstMethod('kenward-roger', false, 0.9)).toMatch(/Kenward–Roger.*90 %.*on the model/)
})

test('an ordinary panel needs no note, one taster does', () => {
  const { rows } = smallPanel()
  const reading = likingReading(rows, {})
  expect(readingNotes(reading, modelPairs(reading, 0.95))).toEqual([])
  expect(readingNotes(likingReading(rows.slice(0, 3), {}), [])).toEqual([
    'One taster: means only, nothing can be tested.',
  ])
})
