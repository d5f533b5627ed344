import { expect, test } from 'vitest'
import { acceptanceMethod, acceptanceNotes, modelFormula } from '@/lib/stats/acceptance-words'
import { scoreTable } from '@/lib/stats/score-table'
import { tasterMeans } from '@/lib/stats/taster-means'
import { smallPanel } from '../../support/small-panel'

test('the formula names session and taster by cup only where they are in the model', () => {
  const { table, rows } = smallPanel()
  expect(modelFormula(table, 'none')).toBe('score ~ cup + (1 | taster)')
  const sessions = scoreTable(
    rows.map((row, i) => ({ ...row, session: i % 2 ? 'x' : 'y' })),
    true,
  )
  expect(modelFormula(sessions, 'own variance')).toBe('score ~ cup + session + (1 | taster) + (1 | taster:cup)')
})

test('the method says which degrees of freedom, level and basis were used', () => {
  expect(acceptanceMethod('satterthwaite', true, false, 0.95)).toMatch(/Satterthwaite.*95 %.*own differences/)
  expect(acceptanceMethod('kenward-roger', false, true, 0.9)).toMatch(/Kenward–Roger.*90 %.*Dunnett.*on the model/)
})

test('an ordinary panel needs no note, one taster does', () => {
  const { table, rows } = smallPanel()
  expect(acceptanceNotes(table, tasterMeans(table), 'none', null, [], undefined)).toEqual([])
  const alone = scoreTable(rows.slice(0, 3), false)
  expect(acceptanceNotes(alone, tasterMeans(alone), 'none', null, [], undefined)).toEqual([
    'One taster: means only, nothing can be tested.',
  ])
})
