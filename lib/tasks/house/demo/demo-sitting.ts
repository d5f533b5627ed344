import 'server-only'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addSitting, findDealtServings, findPanelAttributes } from '@/lib/db/simulated'
import { seededRandom, type SeededRandom } from '@/lib/stats/random'
import type { World } from '../../world'

/** Invented first names; a seat without one is not taken. */
const names = [
  'Ada',
  'Bo',
  'Cleo',
  'Dino',
  'Esra',
  'Finn',
  'Gia',
  'Hana',
  'Ivo',
  'Juno',
  'Kai',
  'Lin',
  'Mio',
  'Nell',
  'Oda',
  'Pim',
  'Quin',
  'Rae',
  'Sol',
  'Tess',
  'Umi',
  'Vera',
  'Wim',
  'Xia',
  'Yara',
  'Zeno',
] as const

export interface DemoSitting {
  readonly cafeId: string
  readonly panelId: string
  readonly seats: number
  /** how well an average taster likes each trial, by trial id */
  readonly liking: ReadonlyMap<string, number>
  readonly comments: readonly string[]
  readonly seed: number
  /** the last seats stop after this many cups */
  readonly lastStopsAfter?: number
}

/** Lets invented tasters score an open panel: a level of their own, the cups' liking, and noise, rounded to the scale. */
export async function holdDemoSitting(world: World, sitting: DemoSitting): Promise<void> {
  const { cafeId, panelId } = sitting
  const random = seededRandom(sitting.seed)
  const at = world.now()
  await inTransaction(world, async (tx) => {
    const attributes = await findPanelAttributes(tx, cafeId, panelId)
    const servings = (await findDealtServings(tx, cafeId, panelId)).filter((one) => one.seat.number <= sitting.seats)
    const seats = [...new Map(servings.map((one) => [one.seatId, one.seat.number]))]
    const level = new Map(seats.map(([seatId]) => [seatId, normal(random) * 0.8]))
    // Drawn in the order of seats and trials, not of serving: the orders are dealt by chance, the demo reads the same.
    const trials = [...sitting.liking.keys()]
    const tasted = servings
      .filter((one) => one.seat.number < sitting.seats || one.position <= (sitting.lastStopsAfter ?? one.position))
      .toSorted(
        (a, b) => a.seat.number - b.seat.number || trials.indexOf(a.cup.trialId) - trials.indexOf(b.cup.trialId),
      )
    await addSitting(tx, {
      cafeId,
      at,
      tasters: seats.map(([seatId, number]) => ({
        id: world.id(),
        cafeId,
        panelId,
        seatId,
        name: names[(number - 1) % names.length] ?? 'Guest',
        consentAt: at,
        cautionsAt: at,
        declaredAt: at,
      })),
      scores: tasted.flatMap((one) =>
        attributes.map((attribute) => ({
          id: world.id(),
          cafeId,
          servingId: one.id,
          attributeId: attribute.id,
          revision: 1,
          key: world.id(),
          source: 'phone',
          at,
          value: step((sitting.liking.get(one.cup.trialId) ?? 5) + (level.get(one.seatId) ?? 0) + normal(random) * 1.2),
        })),
      ),
      comments: sitting.comments.flatMap((text, place) => {
        const serving = tasted[(place * 7 + 3) % tasted.length]
        return serving ? [{ servingId: serving.id, text }] : []
      }),
      lockedServingIds: tasted.map((one) => one.id),
    })
  })
}

const step = (value: number) => Math.min(9, Math.max(1, Math.round(value)))

/** Sum of twelve uniforms less six: near enough to a normal for invented tasters. */
function normal(random: SeededRandom): number {
  let sum = -6
  for (let draw = 0; draw < 12; draw++) sum += random.unit()
  return sum
}
