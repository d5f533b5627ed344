/**
 * What stands how high in the glass?
 * Computed by hand from the balance: 60 ml syrup, 120 ml coffee and 60 ml milk weigh 257.7 g, 200 g of ice at 0.9167 g/ml are
 *           218.2 ml: 458.2 ml in all, the drink stands at 426.3 ml, ice 32 ml above it.
 * Published  the share of floating ice that is under: ρ_ice / ρ_liquid (Archimedes); ice 0.917 g/ml, sea water 1.025 g/ml
 *           (university physics, tables of density): 89.5 % of an iceberg.
 */
import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { glassLayers } from '@/lib/drink/layers'
import type { BuildLine, Vessel } from '@/lib/drink/trial'
import { aLine, aTrial, ice, water } from '../../support/drink-lines'

const drawn = (lines: readonly BuildLine[], vessel: Vessel | null = null) => {
  const build = aTrial([...lines], { vessel })
  return glassLayers(build, computeBuild(build))
}

const syrup = aLine({ name: 'Syrup', kind: 'sweetener', targetGrams: 73.8, density: 1.23 })
const coffee = aLine({ name: 'Coffee', kind: 'coffee', targetGrams: 120, density: 1 })
const milk = aLine({ name: 'Milk', kind: 'milk', targetGrams: 63.9, density: 1.065 })
const built = [syrup, coffee, milk, ice(200)]

test('the layers stand on one another in the order poured, the ice on top whenever it went in', () => {
  const glass = drawn(built)
  expect(glass.layers.map(({ name, line }) => [line, name])).toEqual([
    [1, 'Syrup'],
    [2, 'Coffee'],
    [3, 'Milk'],
  ])
  expect(glass.layers.map(({ from, to }) => [from, to].map((ml) => Math.round(ml * 10) / 10))).toEqual([
    [0, 60],
    [60, 180],
    [180, 240],
  ])
  expect(Math.abs(glass.top - 458.2)).toBeLessThan(0.05)
  const first = drawn([ice(200), syrup, coffee, milk])
  expect(first.layers.map(({ line }) => line)).toEqual([2, 3, 4])
  expect(first.ice).toMatchObject({ lines: [1], from: glass.ice?.from, to: glass.ice?.to })
})

test('the layers and the ice together are what is in the glass', () => {
  const build = aTrial(built)
  const figures = computeBuild(build)
  const { layers, ice: floating, top } = glassLayers(build, figures)
  const all = layers.reduce((ml, { from, to }) => ml + to - from, 0) + (floating ? floating.to - floating.from : 0)
  expect(figures.volume.known && Math.abs(all - figures.volume.value)).toBeLessThan(1e-9)
  expect(Math.abs(all - top)).toBeLessThan(1e-9)
})

test('the drink stands at 426.3 ml with its ice afloat, 32 ml of ice above it', () => {
  const { ice: floating } = drawn(built)
  expect(floating?.line && Math.abs(floating.line - 426.3)).toBeLessThan(0.05)
  expect(floating?.line && Math.round(floating.to - floating.line)).toBe(32)
})

test('of ice in sea water 89.5 % are under, within a tenth', () => {
  const { ice: berg } = drawn([aLine({ name: 'Sea water', targetGrams: 1025, density: 1.025 }), ice(91.67)])
  const share = berg?.line ? (berg.line - berg.from) / (berg.to - berg.from) : 0
  expect(Math.abs(share - 0.895)).toBeLessThan(0.001)
})

test('in what is lighter than ice it sinks, and the line is at its top, not above', () => {
  const { ice: sunk } = drawn([aLine({ name: 'Spirit', targetGrams: 800, density: 0.8 }), ice(50)])
  expect(sunk?.line).toBe(sunk?.to)
})

test('ice that nothing lifts has no line', () => {
  expect(drawn([ice(200)])).toMatchObject({ layers: [], ice: { from: 0, line: null } })
  // 20 g of water cannot surround 200 g of ice
  expect(drawn([water(20), ice(200)]).ice?.line).toBeNull()
})

test('what nobody knows the room of stands apart, and the line of the ice is not told without it', () => {
  const glass = drawn([syrup, aLine({ name: 'Oat drink', kind: 'milk', density: null }), ice(100)])
  expect(glass.layers.map(({ name }) => name)).toEqual(['Syrup'])
  expect(glass.unknown).toEqual([
    { key: 'Oat drink', name: 'Oat drink', kind: 'milk', line: 2, missing: ['density of Oat drink'] },
  ])
  expect(glass.ice?.line).toBeNull()
  expect(Math.abs(glass.top - 60 - 100 / 0.9167)).toBeLessThan(1e-9)
})

test('nothing is below zero: no amount and a negative one are asked for, not drawn', () => {
  const glass = drawn([water(0), aLine({ name: 'Milk', targetGrams: -5 }), ice(-1)])
  expect(glass).toMatchObject({ layers: [], ice: null, top: 0 })
  expect(glass.unknown).toHaveLength(3)
})

test('brim and fill line are the vessel’s, and none without one', () => {
  expect(drawn(built, { name: 'Tall glass', brimMl: 473, fillMl: 440 })).toMatchObject({ brim: 473, fill: 440 })
  expect(drawn(built, { name: 'Bare', brimMl: 0, fillMl: null })).toMatchObject({ brim: null, fill: null })
  expect(drawn(built)).toMatchObject({ brim: null, fill: null })
})
