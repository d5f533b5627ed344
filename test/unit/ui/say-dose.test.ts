import { expect, test } from 'vitest'
import { sayDose } from '@/app/(house)/panels/[panelId]/result/say-dose'
import { dose } from '@/lib/stats/dose/dose'

const cups = [20, 30, 40, 50].map((grams, at) => ({ letter: 'ABCD'.charAt(at), grams }))
const said = (scores: (grams: number, taster: number) => number) => {
  const rows = Array.from({ length: 12 }, (_, taster) => taster).flatMap((taster) =>
    cups.map(({ grams }) => ({ taster: `T${taster}`, dose: grams, score: scores(grams, taster) })),
  )
  return sayDose({ name: 'syrup', cups, answer: dose(rows, { level: 0.95 }) })
}
/** Small, of mean zero, and not the same for any two tasters or amounts. */
const noise = (grams: number, taster: number) => (((taster * 7 + grams * 3) % 11) - 5) / 10

// constructed: what is true is known, and the sentence may claim no more
test('each shape has its sentence, and none claims beyond what was tried', () => {
  expect(said((grams, taster) => 8 - ((grams - 34) / 10) ** 2 + noise(grams, taster))).toMatch(
    /^Liking is highest at about 3\d(\.\d)? g of syrup, between 20 and 50 g tried: 95 % interval 3\d(\.\d)? to 3\d(\.\d)? g\.$/,
  )
  expect(said((grams, taster) => 3 + grams / 20 + noise(grams, taster))).toMatch(/The more syrup, the better/)
  expect(said((grams, taster) => 9 - grams / 20 + noise(grams, taster))).toMatch(/The less syrup, the better/)
  expect(said((grams, taster) => 4 + ((grams - 35) / 10) ** 2 + noise(grams, taster))).toMatch(/liked least\.$/)
  expect(said((grams, taster) => 6 + noise(grams, taster))).toMatch(/not told to change with syrup\.$/)
})
