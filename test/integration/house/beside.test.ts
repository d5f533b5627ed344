/** Trials beside one another: lines stand in one row by what they are made of, whatever batch was poured. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { readBeside } from '@/lib/tasks/recipe/read-beside'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const beside = (ids: readonly string[], home = false) => readBeside(cafe.world, cafe.owner, cafe.recipeId, ids, home)

test('each part has one row, and what a trial has not is an empty list', async () => {
  const found = await beside(cafe.trialIds)
  expect(found?.trials.map(({ number }) => number)).toEqual([1, 2, 3, 4])
  expect(
    found?.parts.map(({ name, amounts }) => [name, ...amounts.map((one) => one.map(({ grams }) => grams))]),
  ).toEqual([
    ['Zephyrine beans', [60], [60], [60], [60]],
    ['Zephyrine milk', [60], [], [], []],
    ['Quillberry sugar', [], [60], [], []],
    ['Ombrelle syrup', [], [], [], [60]],
  ])
  expect(found?.trials[3]?.labels.unread).toEqual(['Quillberry paste'])
  expect(found?.cautions.find(({ words }) => words.includes('Quillberry paste'))?.of).toEqual([3])
  expect(found?.trials.map(({ liking }) => liking)).toEqual(cafe.trialIds.map(() => ({ said: 'not-tasted' })))
})

test('two to six stand there, in the order asked for; less, more, and trials of elsewhere are said', async () => {
  const { db, owner, recipeId, trialIds, world } = cafe
  const [first = '', second = ''] = trialIds
  expect((await beside([second, first]))?.trials.map(({ number }) => number)).toEqual([2, 1])
  expect(await beside([])).toMatchObject({ refused: 'too-few', trials: [], gone: 0 })
  expect(await beside([first, first, 'no-such'])).toMatchObject({ refused: 'too-few', named: [first], gone: 1 })
  const more = [5, 6, 7].map((number) => `t${number}`)
  for (const id of more)
    await db.trial.create({
      data: {
        id,
        cafeId: owner.cafeId,
        recipeId,
        number: Number(id.slice(1)),
        name: id,
        method: 'drip',
        createdAt: world.now(),
      },
    })
  expect((await beside([...trialIds, 't5', 't6']))?.trials).toHaveLength(6)
  expect(await beside([...trialIds, ...more])).toMatchObject({ refused: 'too-many', trials: [] })
  expect(await readBeside(world, cafe.stranger, recipeId, trialIds, false)).toBeNull()
})

test('home measures stand there when asked for, of a spoon that was weighed and of a density that is known', async () => {
  const { db, trialIds } = cafe
  const two = trialIds.slice(0, 2)
  const measures = async (home: boolean) =>
    (await beside(two, home))?.trials.map(({ home: words }) => [...words.values()])
  expect(await measures(true)).toEqual([[], []])
  // USDA household weights, as in trade.md: granulated sugar 4.2 g a teaspoon; 60 / 4.2 = 14.29, by hand
  await db.ingredient.updateMany({ where: { name: 'Quillberry sugar' }, data: { spoonMg: 4200 } })
  // by hand: 60 / 1.015 = 59.1 ml, 0.1 % from a quarter of a US cup
  await db.ingredient.updateMany({
    where: { name: 'Zephyrine milk' },
    data: { microdensity: 1_015_000, densityIsAssumed: true },
  })
  expect(await measures(true)).toEqual([
    ['59 ml at 1.015 g/ml, assumed; about ¼ US cup'],
    ['about 14¼ level teaspoons'],
  ])
  expect(await measures(false)).toEqual([[], []])
})
