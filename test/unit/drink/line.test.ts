import { expect, test } from 'vitest'
import { brewFigures, lineFigures, toleranceOf } from '@/lib/drink/line'
import { contentsOfLine } from '@/lib/drink/preparation'
import { aBrew, aLine, aTrial, grounds, ice } from '../../support/drink-lines'

const figuresOf = (line: ReturnType<typeof aLine>) =>
  lineFigures({ line, contents: contentsOfLine(line, aBrew()) }, 'coins')

test('a weight within 2 g or 2 % is right unless the line says otherwise', () => {
  expect(toleranceOf({ toleranceGrams: null, targetGrams: 50 })).toBe(2)
  expect(toleranceOf({ toleranceGrams: null, targetGrams: 200 })).toBe(4)
  expect(toleranceOf({ toleranceGrams: 0.2, targetGrams: 15 })).toBe(0.2)
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
