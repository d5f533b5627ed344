import { describe, expect, test } from 'vitest'
import { ingredientTold, sameDrinks } from '@/lib/drink/tell-apart'
import { aBatch, aLine, aTrial, grounds, ice, sugar, water } from '../../support/drink-lines'

const honey = (targetGrams: number) => aLine({ name: 'Honey', kind: 'sweetener', targetGrams })
const milk = (name: string, targetGrams = 100) => aLine({ name, kind: 'milk', targetGrams })
const glass = (...lines: ReturnType<typeof aLine>[]) =>
  aTrial([grounds(18, { name: 'Roast coffee, arabica' }), ...lines])

describe('one drink under two names', () => {
  test('is found by its place, whatever it is called and was weighed', () => {
    const a = glass(honey(12))
    const b = { ...glass(honey(20)), name: 'B' }
    const c = { ...b, name: 'C', lines: b.lines.map((line) => ({ ...line, weighedGrams: 3 })) }
    expect(sameDrinks([a, b])).toBeNull()
    expect(sameDrinks([a, b, c])).toEqual([1, 2])
    expect(sameDrinks([a, a, b, c])).toEqual([0, 1])
  })
  test('two sheets without a line are two questions, not one drink', () => {
    expect(sameDrinks([aTrial([]), aTrial([])])).toBeNull()
  })
})

describe('a title tells', () => {
  test('what is in some of the glasses alone, or in more than one amount', () => {
    expect(ingredientTold('Honey or no honey?', [glass(honey(12)), glass()])).toBe('Honey')
    expect(ingredientTold('How much honey?', [glass(honey(12)), glass(honey(20))])).toBe('Honey')
    expect(ingredientTold('How much honey?', [glass(honey(12)), glass(honey(12))])).toBeNull()
    expect(ingredientTold('Two cold coffees', [glass(honey(12)), glass(honey(20))])).toBeNull()
  })
  test('one of two kinds by the word that only it has', () => {
    const builds = [glass(milk('Whole milk')), glass(milk('Evaporated milk')), glass(milk('Oat drink'))]
    expect(ingredientTold('Is oat as good?', builds)).toBe('Oat drink')
    expect(ingredientTold('Milk, or not?', builds)).toBe('Whole milk')
    // Both of the first two are milk, and as much of it: the word tells neither from the other.
    expect(ingredientTold('Coffee with milk', builds.slice(0, 2))).toBeNull()
    expect(ingredientTold('Evaporated or whole?', builds.slice(0, 2))).toBe('Evaporated milk')
  })
  test('in the plural and in capitals too', () => {
    const dates = (grams: number) => aLine({ name: 'Date paste', targetGrams: grams })
    expect(ingredientTold('DATES, more or less', [glass(dates(5)), glass(dates(9))])).toBe('Date paste')
  })
  test('what is inside a preparation, by the preparation’s own name as well', () => {
    const inputs = [honey(50), water(50)]
    const syrup = (grams: number) =>
      aLine({ name: 'Amber syrup, batch 2', targetGrams: grams, preparation: aBatch(inputs, { name: 'Amber syrup' }) })
    const builds = [glass(syrup(20)), glass(syrup(30))]
    expect(ingredientTold('How much honey?', builds)).toBe('Honey')
    expect(ingredientTold('With amber syrup', builds)).toBe('Amber syrup')
  })
})

describe('a title tells nothing', () => {
  test('by how much coffee, water or ice there is, since every glass has some', () => {
    const weak = aTrial([grounds(15, { name: 'Roast coffee' }), water(200), ice(100)])
    const strong = aTrial([grounds(20, { name: 'Roast coffee' }), water(150), ice(200)])
    expect(ingredientTold('Iced coffee, water and ice', [weak, strong])).toBeNull()
    const noIce = aTrial([grounds(15, { name: 'Roast coffee' }), water(200)])
    expect(ingredientTold('Ice or no ice', [weak, noIce])).toBe('Ice')
  })
  test('by words that name no ingredient', () => {
    const builds = [glass(milk('Oat drink')), glass(milk('Whole milk'))]
    expect(ingredientTold('Two cold drinks, whole or half a glass', builds)).toBeNull()
    expect(ingredientTold('', builds)).toBeNull()
  })
  test('where nothing is poured yet', () => {
    expect(ingredientTold('White sugar', [])).toBeNull()
    expect(ingredientTold('White sugar', [aTrial([sugar(5)])])).toBeNull()
  })
})
