import { expect, test } from 'vitest'
import { brewFigures, lineFigures, tooCoarseFor, toleranceOf } from '@/lib/drink/line'
import { contentsOfLine } from '@/lib/drink/preparation'
import { aBrew, aLine, aTrial, grounds, ice } from '../../support/drink-lines'

const figuresOf = (line: ReturnType<typeof aLine>) =>
  lineFigures({ line, contents: contentsOfLine(line, aBrew()) }, 'coins')

// 2 % and one division by hand; both are common practice without a source
test('a weight within 2 %, at least one division of its scale, is right unless the line says otherwise', () => {
  expect(toleranceOf(aLine({ targetGrams: 50 }))).toBe(1)
  expect(toleranceOf(aLine({ targetGrams: 0.2 }))).toBe(0.1)
  expect(toleranceOf(aLine({ kind: 'milk', targetGrams: 30 }))).toBe(1)
  expect(toleranceOf(ice(200))).toBe(4)
  expect(toleranceOf(aLine({ toleranceGrams: 0.2, targetGrams: 15 }), 3)).toBeCloseTo(0.6, 12)
  // glasses weighed together share the scale's one division
  expect(toleranceOf(aLine({ targetGrams: 1 }), 2)).toBe(0.1)
})

test('a tolerance is whole divisions of the scale, one at least, whatever the line says', () => {
  // by hand: 2 % of 28 g are 0.56 g, of which a scale of tenths shows 0.5; half a division cannot be read
  expect(toleranceOf(aLine({ targetGrams: 28 }))).toBeCloseTo(0.5, 12)
  expect(toleranceOf(aLine({ targetGrams: 28, toleranceGrams: 0.04 }))).toBe(0.1)
})

test('a dose of which half a division is more than a twentieth cannot be weighed; so many glasses together can', () => {
  // by hand: 0.05 g of 0.2 g is a quarter; five glasses make 1 g, and 0.05 g a twentieth of it
  expect(tooCoarseFor(aLine({ targetGrams: 0.2 }))).toEqual({ scale: { name: null, division: 0.1 }, glasses: 5 })
  expect(tooCoarseFor(aLine({ targetGrams: 0.2 }), 5)).toBeNull()
  expect(tooCoarseFor(aLine({ targetGrams: 1 }))).toBeNull()
  expect(tooCoarseFor(aLine({ kind: 'milk', targetGrams: 6 }))).toEqual({
    scale: { name: null, division: 1 },
    glasses: 2,
  })
  expect(tooCoarseFor(aLine({ targetGrams: 0 }))).toBeNull()
})

test('the house says what it weighs on: a finer scale holds a dose nearer, and weighs what the usual one cannot', () => {
  const scales = { doses: { name: 'Pocket scale', division: 0.01 }, pours: { name: null, division: 5 } }
  // by hand: 2 % of 1 g are 0.02 g, two divisions; 2 % of 100 ml milk are 2 g, less than one division of 5 g
  expect(toleranceOf(aLine({ targetGrams: 1 }), 1, scales)).toBeCloseTo(0.02, 12)
  expect(toleranceOf(aLine({ targetGrams: 0.1 }), 1, scales)).toBe(0.01)
  expect(toleranceOf(aLine({ kind: 'milk', targetGrams: 100 }), 1, scales)).toBe(5)
  // half of 0.01 g is a fortieth of 0.2 g; half of 5 g is a sixteenth of 40 g, and a twentieth of 50 g
  expect(tooCoarseFor(aLine({ targetGrams: 0.2 }), 1, scales)).toBeNull()
  expect(tooCoarseFor(aLine({ kind: 'milk', targetGrams: 40 }), 1, scales)).toEqual({
    scale: scales.pours,
    glasses: 2,
  })
})

test('what was weighed is held against that', () => {
  expect(figuresOf(aLine({ weighedGrams: 102 })).offTarget).toEqual({ grams: 2, within: true })
  expect(figuresOf(aLine({ weighedGrams: 97 })).offTarget).toEqual({ grams: -3, within: false })
  expect(figuresOf(aLine()).offTarget).toBeNull()
})

test('ice takes more room than its weight in water', () => {
  const { volume } = figuresOf(ice(200))
  expect(volume.known && volume.value).toBeCloseTo(200 / 0.9167, 9)
})

test('a brew opens with its numbers in the formula of its kind', () => {
  const working = (over: Parameters<typeof aBrew>[0]) => {
    const brew = brewFigures(aTrial([grounds(15)], { brew: aBrew(over) }))
    return brew?.beverage.known && brew.strength.known ? [brew.beverage.formula, brew.strength.formula] : []
  }
  expect(working({})).toEqual(['150 − 2 · 15', '100 · 0.21 · 15 / (150 + 0.21 · 15)'])
  expect(working({ brewing: 'espresso', ratioKind: 'beverage-out', ratio: 2 })).toEqual([
    '15 · 2',
    '100 · 0.21 · 15 / 30',
  ])
  expect(working({ strengthPercent: 2.1 })?.[1]).toBe('2.1, measured')
})

test('no grounds, no brew figures', () => {
  expect(brewFigures(aTrial([aLine()], { brew: aBrew() }))).toBeNull()
  expect(brewFigures(aTrial([grounds(15)]))).toBeNull()
})
