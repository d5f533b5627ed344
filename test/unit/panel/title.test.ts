import { expect, test } from 'vitest'
import { againTitle, freshTitle } from '@/lib/panel/title'

test('a new panel is called by its recipe and counted on', () => {
  expect(freshTitle('Iced date coffee', 2)).toBe('Iced date coffee, panel 3')
})

test('a recipe’s long name is cut before the number, within the 80 letters a title may have', () => {
  // 78 letters, as the recipe form allows: ", panel 1" are nine, so 70 and the mark of the cut stay.
  expect(freshTitle('x'.repeat(78), 0)).toBe(`${'x'.repeat(70)}…, panel 1`)
  expect([...freshTitle('x'.repeat(78), 0)]).toHaveLength(80)
  expect(freshTitle('x'.repeat(71), 0)).toBe(`${'x'.repeat(71)}, panel 1`)
})

test('a cut never goes through a letter, nor leaves a gap before the mark', () => {
  expect(freshTitle('☕'.repeat(78), 0)).toBe(`${'☕'.repeat(70)}…, panel 1`)
  expect(freshTitle(`${'x'.repeat(69)} yyyyyyyyy`, 0)).toBe(`${'x'.repeat(69)}…, panel 1`)
})

test('testing again says so once, however often', () => {
  expect(againTitle('How sweet?')).toBe('How sweet?, again')
  expect(againTitle('How sweet?, again')).toBe('How sweet?, again')
  expect(againTitle('x'.repeat(80))).toBe(`${'x'.repeat(72)}…, again`)
})
