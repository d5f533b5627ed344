import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { BatchSteps } from '@/app/(house)/bar/batches/[preparationId]/batch-steps'

const input = { name: 'Pods', grams: 12, isStrainedOut: false, lacking: false, pastBatch: null, takeBatch: null }
const batch = {
  name: 'Cardamom',
  kind: 'syrup',
  from: { by: 'formula', number: 1, outputGrams: 1230, steps: [] },
  hasFormula: true,
  inputs: [input],
  targetGrams: 1230,
  brix: null,
  storageCelsius: null,
  keepsHours: null,
  keeping: null,
  past: [],
} as const
const drawn = (more: object) =>
  renderToStaticMarkup(createElement(BatchSteps, { batch: { ...batch, ...more }, pot: 640 }))

// by hand: 640 + 1 230
test('a syrup is stopped at a weight in its pot, with the heat off', () => {
  expect(drawn({})).toMatch(/stop at <strong>1,870 g/)
  expect(drawn({})).toContain('Heat off')
})

test.each([
  ['an infusion', { kind: 'infusion', inputs: [{ ...input, isStrainedOut: true }] }],
  ['a brew', { kind: 'immersion-brew' }],
])('%s is strained: what stays behind stands in the pot, and no weight there says when it is ready', (_, more) => {
  expect(drawn(more)).not.toMatch(/stop at|Heat off/)
  expect(drawn(more)).toMatch(/Strain it: about <strong>1,230 g/)
})
