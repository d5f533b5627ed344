import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { brewed, retentionOf } from '@/lib/drink/brewing'
import { tally } from '@/lib/drink/figure'
import { aBrew } from '../../support/drink-lines'

const dose = tally(15, '')

test('what nobody measured is assumed and said', () => {
  const made = brewed(aBrew({ retention: null, extractionPercent: null }), dose, null)
  expect(made.beverage.assumed.join()).toContain('retention 2 g per g')
  expect(made.strength.assumed.join()).toContain('extraction 21 %')
  expect(retentionOf(aBrew({ retention: 3 })).assumed).toEqual([])
})

test('a ratio not above the retention gives no beverage and no negative number', () => {
  const made = brewed(aBrew({ ratio: 2 }), dose, null)
  expect(made.beverage.missing).toEqual(['water above what the grounds keep'])
  expect(made.strength.missing.length + made.served.missing.length).toBeGreaterThan(0)
})

test('a ratio without its kind is asked about', () => {
  expect(brewed(aBrew({ ratioKind: null }), dose, null).beverage.missing.join()).toContain('kind of brew ratio')
  expect(brewed(aBrew({ ratio: null }), dose, null).beverage.missing).toContain('brew ratio')
})

test('a measured strength leads to its extraction, by the formula of its way of brewing', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 5, max: 28, noNaN: true }),
      fc.constantFrom('immersion', 'percolation'),
      (e, brewing) => {
        const known = aBrew({ brewing, extractionPercent: e })
        const strengthPercent = 100 * brewed(known, dose, null).strength.total
        const back = brewed({ ...known, strengthPercent, extractionPercent: null }, dose, null)
        expect(Math.abs(100 * back.extraction.total - e)).toBeLessThan(1e-9)
      },
    ),
  )
})

test('a weighed beverage comes before a computed one', () => {
  const weighed = { water: tally(150, ''), beverage: 118 }
  expect(brewed(aBrew(), dose, weighed).beverage.total).toBe(118)
  expect(brewed(aBrew(), dose, { water: tally(0, ''), beverage: 118 }).strength.missing.length).toBe(1)
})
