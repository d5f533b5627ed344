import 'server-only'
import type { Db, Tx } from './client'

/** One ingredient somewhere in a panel, as far as cautions need it. */
export type PanelIngredient = {
  readonly id: string
  readonly name: string
  readonly kind: string
  readonly isMilkOrPlantDrink: boolean
  readonly labelReadAt: Date | null
  readonly caffeineHighMg100g: number | null
  readonly sugarsMg: number | null
  readonly allergens: readonly { readonly allergen: string; readonly state: string }[]
}

const ingredient = {
  id: true,
  name: true,
  kind: true,
  isMilkOrPlantDrink: true,
  labelReadAt: true,
  caffeineHighMg100g: true,
  sugarsMg: true,
  allergens: { select: { allergen: true, state: true } },
} as const

/**
 * Every ingredient of every cup of a panel, through preparations of preparations, each once and in the order of its
 * name, so that neither order nor number tells which cup it came from. A line's alternatives count as well: which of
 * them was bought on the day is not always noted, and a caution too many harms nobody.
 */
export async function listPanelIngredients(db: Db | Tx, cafeId: string, panelId: string): Promise<PanelIngredient[]> {
  const lines = await db.trialLine.findMany({
    where: { cafeId, trial: { cups: { some: { cafeId, panelId } } } },
    select: {
      batchId: true,
      ingredient: { select: ingredient },
      alternatives: { select: { batchId: true, ingredient: { select: ingredient } } },
    },
  })
  const used = lines.flatMap((line) => [line, ...line.alternatives])
  const found = new Map<string, PanelIngredient>()
  for (const { ingredient } of used) if (ingredient) found.set(ingredient.id, ingredient)

  const seen = new Set<string>()
  let next = used.flatMap(({ batchId }) => (batchId ? [batchId] : []))
  while (next.length > 0) {
    for (const id of next) seen.add(id)
    const inputs = await db.batchInput.findMany({
      where: { cafeId, batchId: { in: [...new Set(next)] } },
      select: { inputBatchId: true, ingredient: { select: ingredient } },
    })
    for (const { ingredient } of inputs) if (ingredient) found.set(ingredient.id, ingredient)
    next = inputs.flatMap(({ inputBatchId }) => (inputBatchId && !seen.has(inputBatchId) ? [inputBatchId] : []))
  }
  return [...found.values()].sort((a, b) => a.name.localeCompare(b.name, 'en'))
}
