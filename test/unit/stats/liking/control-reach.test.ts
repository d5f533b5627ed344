import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { controlOutside, controlReach } from '@/lib/stats/liking/control-reach'

/** Made with mvtnorm (test/reference/make/mvtnorm-many-to-one.R); each case states the error of R's algorithm. */
interface Case {
  readonly name: string
  readonly correlation: readonly (readonly number[])[]
  readonly df: number | 'Infinity'
  readonly q: number
  readonly inside: number
  readonly within: number
}
const file = new URL('../../../reference/data/mvtnorm-many-to-one.json', import.meta.url)
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: readonly Case[] }

test('every layout agrees with mvtnorm, the incomplete blocks by the series', () => {
  for (const { name, correlation, df, q, inside, within } of cases) {
    const got = 1 - controlOutside(q, Number(df), correlation)
    expect(Math.abs(got - inside), `${name}, df ${df}, q ${q}`).toBeLessThan(5e-6 + within)
  }
})

test('the reach leaves exactly 1 − level outside', () => {
  const blocks = cases.find(({ name }) => name.startsWith('five'))?.correlation ?? []
  expect(controlOutside(controlReach(0.95, 24, blocks), 24, blocks)).toBeCloseTo(0.05, 10)
})
