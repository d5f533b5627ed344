/**
 * Numbers of tasters by the exact binomial, first n and n for good.
 * Made      data/disc_power.json and data/power_sample_size.json, R 4.2.2 (every n tried); whole numbers compared exactly,
 *           powers to 1e-9. The first numbers of the triangle are those of ISO 4120 as remembered: from memory.
 */
import { expect, test } from 'vitest'
import reference from './data/disc_power.json'
import preference from './data/power_sample_size.json'
import { tastersForDifference, tastersForPreference } from '@/lib/stats/plan/choice-power'
import { guessingShare, type Protocol } from '@/lib/stats/difference/protocol'
import { psychometric } from '@/lib/stats/difference/psychometric'

const NAMES: Record<string, Protocol> = {
  twoAFC: 'two-afc',
  threeAFC: 'three-afc',
  duotrio: 'duo-trio',
  triangle: 'triangle',
  tetrad: 'tetrad',
}

const protocolOf = (guessing: number): Protocol => (guessing < 0.4 ? 'triangle' : 'duo-trio')

test.each(reference.values.sample_size_pd)('guessing $pg, $pd can tell, alpha $alpha, beta $beta', (row) => {
  const question = { protocol: protocolOf(row.pg), pd: row.pd, alpha: row.alpha }
  const answer = tastersForDifference(question, { power: 1 - row.beta })
  expect(answer.n).toBe(row.n_first)
  expect(answer.notes.join(' ')).toContain(`from ${row.n_stable} `)
})

test.each(reference.values.sample_size_dprime)('$method at d-prime $dprime, power $power', (row) => {
  const protocol = NAMES[row.method] ?? 'triangle'
  const guessing = guessingShare(protocol)
  const pd = (psychometric(protocol, row.dprime).share - guessing) / (1 - guessing)
  const answer = tastersForDifference({ protocol, pd, alpha: row.alpha }, { power: row.power })
  expect(answer.n).toBe(row.n_first)
  expect(answer.notes.join(' ')).toContain(`from ${row.n_stable} `)
})

test.each(reference.values.power)('the power of $n tasters, guessing $pg, $pd can tell', (row) => {
  const answer = tastersForDifference({ protocol: protocolOf(row.pg), pd: row.pd, alpha: row.alpha }, { n: row.n })
  expect(answer.critical).toBe(row.crit)
  expect(Math.abs(answer.power - row.power)).toBeLessThan(1e-9)
})

test.each(preference.values.preference)('a share of $p preferring one cup, power $power', (row) => {
  const answer = tastersForPreference({ share: row.p, alpha: 0.05 }, { power: row.power })
  expect(answer.n).toBe(row.n_first)
  expect(answer.notes.join(' ')).toContain(`from ${row.n_stable} `)
})
