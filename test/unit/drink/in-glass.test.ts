import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { everyLineInGlass, liquidMlOf, partsInGlass } from '@/lib/drink/in-glass'
import { aBatch, aLine, aTrial, ice } from '../../support/drink-lines'

const inner = aLine({ name: 'Date paste' })
const syrup = aLine({ name: 'Date syrup', preparation: aBatch([inner]) })
const oat = aLine({ name: 'Oat drink' })
const build = aTrial([syrup], { beside: [{ line: oat, insteadOf: 'Milk', level: 'economy', why: 'used' }] })

test('what stands beside the lines is in the glass like them, and a batch is opened to its ingredients', () => {
  expect(partsInGlass(build).map(({ name }) => name)).toEqual(['Date paste', 'Oat drink'])
  expect(everyLineInGlass(build).map(({ name }) => name)).toEqual(['Date syrup', 'Oat drink', 'Date paste'])
})

test('a batch that contains itself does not hang', () => {
  const inputs: (typeof inner)[] = []
  const loop = aBatch(inputs)
  inputs.push(aLine({ name: 'Again', preparation: loop }))
  expect(everyLineInGlass(aTrial(inputs)).length).toBeGreaterThan(1)
})

test('the liquid of a glass is all but its ice, and not known where a volume is not', () => {
  const liquid = (...lines: (typeof inner)[]) => liquidMlOf(aTrial(lines), computeBuild(aTrial(lines)))
  // 100 g at 1 g/ml, whatever ice stands in it
  expect(liquid(aLine(), ice(50))).toBeCloseTo(100, 9)
  expect(liquid(aLine({ density: null }))).toBeNull()
  expect(liquid(ice(50))).toBeNull()
})
