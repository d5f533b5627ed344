/**
 * A panel of eight tasters and three cups, scored as test/reference/data/panel-of-eight.json holds it.
 * Made   test/reference/make/panel-of-eight.R: t.test(paired = TRUE), p.adjust("holm"), lmer
 */
import { readFileSync } from 'node:fs'
import { addSitting, findDealtServings, findPanelAttributes } from '@/lib/db/simulated'
import type { TestCafe } from './cafe'

interface Reference {
  readonly scores: Readonly<Record<'A' | 'B' | 'C', readonly number[]>>
  readonly means: Readonly<Record<string, number>>
  readonly pairs: readonly { a: string; b: string; difference: number; low: number; high: number; pHolm: number }[]
  /** of A and B, A and C, B and C: all three at once, and the two against A */
  readonly joint95All: readonly (readonly [number, number])[]
  readonly joint95Against: readonly (readonly [number, number])[]
  readonly tastersForOnePoint: number
}
export const fromR = JSON.parse(readFileSync('test/reference/data/panel-of-eight.json', 'utf8')) as Reference

/** Seats 1 to 8 score what the reference holds; seat 9 stays empty. */
export async function scoreAsInR(cafe: TestCafe, panelId: string): Promise<void> {
  await scoreBySeats(cafe, panelId, fromR.scores)
}

/** The first, second and third trial's scores, from seat 1 on; seats beyond them stay empty. */
export async function scoreBySeats(
  cafe: TestCafe,
  panelId: string,
  scores: Readonly<Partial<Record<'A' | 'B' | 'C', readonly number[]>>>,
): Promise<void> {
  const { world, db, owner, trialIds } = cafe
  const { cafeId } = owner
  const at = world.now()
  await db.$transaction(async (tx) => {
    const servings = (await findDealtServings(tx, cafeId, panelId)).filter(
      (one) => one.seat.number <= (scores.A?.length ?? 0),
    )
    const [liking] = await findPanelAttributes(tx, cafeId, panelId)
    const letters = ['A', 'B', 'C'] as const
    await addSitting(tx, {
      cafeId,
      at,
      tasters: [...new Map(servings.map((one) => [one.seatId, one.seat.number]))].map(([seatId, number]) => ({
        id: world.id(),
        cafeId,
        panelId,
        seatId,
        name: `T${number}`,
        consentAt: at,
        cautionsAt: at,
        declaredAt: at,
      })),
      scores: servings.map((one) => {
        const letter = letters[trialIds.indexOf(one.cup.trialId)] ?? 'A'
        const value = scores[letter]?.[one.seat.number - 1] ?? 0
        return {
          id: world.id(),
          cafeId,
          servingId: one.id,
          attributeId: liking?.id ?? '',
          value,
          revision: 1,
          key: world.id(),
          source: 'phone',
          at,
        }
      }),
      comments: [{ servingId: servings[0]?.id ?? '', text: '=SUM(1)' }],
      lockedServingIds: servings.map((one) => one.id),
    })
  })
}
