import 'server-only'
import type { Tx } from '@/lib/db/engine/client'
import { addAllergenMarks, addIngredient } from '@/lib/db/ingredients'
import { STARTERS, type StarterIngredient } from '@/lib/drink/composition'
import type { Actor, World } from '../world'

/**
 * Puts the starter ingredients with published composition into a new café's store. Their labels count as unread until
 * somebody reads the one in the hand; only drinking water and its ice have none.
 */
export async function layInStarters(world: World, tx: Tx, actor: Actor): Promise<void> {
  for (const starter of STARTERS) {
    const id = world.id()
    await addIngredient(tx, { id, cafeId: actor.cafeId, createdAt: world.now(), ...rowOf(starter, world.now()) })
    await addAllergenMarks(
      tx,
      starter.carries.map((allergen) => ({
        id: world.id(),
        cafeId: actor.cafeId,
        ingredientId: id,
        allergen,
        state: 'contains',
      })),
    )
  }
}

const scaled = (value: number | null, times: number) => (value === null ? null : Math.round(value * times))

function rowOf(starter: StarterIngredient, now: Date) {
  const { composition } = starter
  return {
    name: starter.name,
    kind: starter.kind,
    form: starter.form,
    microdensity: scaled(starter.density, 1_000_000),
    densityIsAssumed: starter.densityIsAssumed,
    sugarsMg: scaled(composition.sugars, 1000),
    freeSugarsMg: scaled(composition.freeSugars, 1000),
    fatMg: scaled(composition.fat, 1000),
    proteinMg: scaled(composition.protein, 1000),
    energyDecikcal: scaled(composition.energyKcal, 10),
    waterMg: scaled(composition.water, 1000),
    solidsMg: scaled(composition.coffeeSolids, 1000),
    caffeineLowMg100g: scaled(composition.caffeineLow, 10),
    caffeineHighMg100g: scaled(composition.caffeineHigh, 10),
    sweetnessPercent: scaled(composition.sweetness, 1),
    // Milks, plant drinks, water and ice have none; of one that is flavoured its label says.
    alcoholBp: ['milk', 'water', 'ice'].includes(starter.kind) && !/vanilla/i.test(starter.name) ? 0 : null,
    isMilkOrPlantDrink: starter.kind === 'milk',
    figuresSource: `${starter.source}; ${starter.edition}`,
    figuresDate: now,
    labelReadAt: starter.kind === 'water' || starter.kind === 'ice' ? now : null,
  }
}
