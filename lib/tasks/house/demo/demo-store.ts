import 'server-only'
import { dayIn } from '@/lib/base/zone-time'
import { addBatch } from '@/lib/db/batches'
import { addPreparation, findPreparationByName } from '@/lib/db/preparations'
import { requireCafe } from '@/lib/db/cafes'
import type { Tx } from '@/lib/db/engine/client'
import { addAllergenMarks, addIngredient, findIngredients, setLabelRead } from '@/lib/db/ingredients'
import { addPrice } from '@/lib/db/prices'
import { addVessel } from '@/lib/db/vessels'
import { heldFrom } from '../../store/add-price'
import type { Actor, World } from '../../world'

/** What the demo recipes are made of, by the names their lines use. */
export interface DemoStore {
  readonly coffee: string
  readonly milk: string
  readonly plainMilk: string
  readonly oat: string
  readonly water: string
  readonly ice: string
  readonly dateSyrup: string
  readonly vesselId: string
}

interface Invented {
  readonly name: string
  readonly kind: string
  readonly form: string
  readonly microdensity?: number
  readonly sugarsMg?: number
  readonly freeSugarsMg?: number
  readonly fatMg?: number
  readonly proteinMg?: number
  readonly energyDecikcal?: number
  readonly waterMg?: number
  readonly solidsMg?: number
  readonly caffeineLowMg100g?: number
  readonly caffeineHighMg100g?: number
  readonly sweetnessPercent?: number
  readonly isMilkOrPlantDrink?: boolean
  readonly alcoholBp?: number
}

const none = {
  sugarsMg: 0,
  freeSugarsMg: 0,
  fatMg: 0,
  proteinMg: 0,
  caffeineLowMg100g: 0,
  caffeineHighMg100g: 0,
  alcoholBp: 0,
} as const

/** Invented figures of invented goods, round on purpose. */
const invented: readonly Invented[] = [
  {
    ...none,
    name: 'Quay roast, ground (demo)',
    kind: 'coffee',
    form: 'grounds',
    energyDecikcal: 0,
    waterMg: 0,
    sweetnessPercent: 0,
    caffeineLowMg100g: 11_000,
    caffeineHighMg100g: 12_000,
  },
  {
    ...none,
    name: 'Oat drink (demo)',
    kind: 'milk',
    form: 'liquid',
    microdensity: 1_020_000,
    sugarsMg: 3_500,
    freeSugarsMg: 3_500,
    fatMg: 2_800,
    proteinMg: 800,
    energyDecikcal: 480,
    waterMg: 90_000,
    solidsMg: 0,
    sweetnessPercent: 2,
    isMilkOrPlantDrink: true,
  },
  {
    ...none,
    name: 'Date paste (demo)',
    kind: 'sweetener',
    form: 'liquid',
    microdensity: 1_300_000,
    sugarsMg: 64_000,
    freeSugarsMg: 64_000,
    proteinMg: 2_000,
    energyDecikcal: 2_800,
    waterMg: 24_000,
    solidsMg: 0,
    sweetnessPercent: 66,
  },
  {
    ...none,
    name: 'Cardamom pods (demo)',
    kind: 'other',
    form: 'powder',
    energyDecikcal: 3_100,
    waterMg: 8_000,
    solidsMg: 0,
    sweetnessPercent: 0,
  },
]

/** Prices of packs: name, grams in the pack, minor units. */
const prices: readonly (readonly [name: string, grams: number, minor: number])[] = [
  ['Quay roast, ground (demo)', 1000, 1800],
  ['Oat drink (demo)', 1020, 210],
  ['Date paste (demo)', 1000, 560],
  ['Cardamom pods (demo)', 100, 780],
  ['Evaporated milk, whole', 378, 160],
  ['Whole milk, 3.25 % fat', 1031, 115],
  ['Drinking water', 1000, 1],
  ['Ice', 1000, 10],
]

/** What the invented labels say of allergens. */
const labels: readonly (readonly [name: string, allergen: string, state: 'contains' | 'may-contain'])[] = [
  ['Oat drink (demo)', 'gluten-cereals', 'contains'],
  ['Date paste (demo)', 'tree-nuts', 'may-contain'],
  ['Date paste (demo)', 'sesame', 'may-contain'],
]

export async function layOutStore(world: World, tx: Tx, actor: Actor): Promise<DemoStore> {
  const { cafeId } = actor
  const now = world.now()
  for (const one of invented) {
    await addIngredient(tx, {
      ...one,
      id: world.id(),
      cafeId,
      isDemo: true,
      figuresSource: 'invented for the demo',
      figuresDate: now,
      createdAt: now,
    })
  }
  const { timeZone } = await requireCafe(tx, cafeId)
  const day = dayIn(now, timeZone)
  const all = await findIngredients(tx, cafeId, day)
  const idOf = (name: string) => {
    const found = all.find((ingredient) => ingredient.name === name)
    if (!found) throw new RangeError(`the demo needs an ingredient called ${name}`)
    return found.id
  }
  for (const [name, grams, minor] of prices) {
    await addPrice(tx, {
      id: world.id(),
      cafeId,
      ingredientId: idOf(name),
      packMg: grams * 1000,
      packTyped: String(grams),
      packUnit: 'g',
      priceMinor: minor,
      ...heldFrom(day),
      createdAt: now,
      createdById: actor.userId,
      note: 'invented for the demo',
    })
  }
  await addAllergenMarks(
    tx,
    labels.map(([name, allergen, state]) => ({ id: world.id(), cafeId, ingredientId: idOf(name), allergen, state })),
  )
  await setLabelRead(
    tx,
    cafeId,
    prices.map(([name]) => idOf(name)),
    now,
    actor.userId,
  )
  const vesselId = world.id()
  await addVessel(tx, {
    id: vesselId,
    cafeId,
    name: 'Tall glass, 16 US fl oz (demo)',
    brimUl: 473_176,
    fillUl: 450_000,
    packMinor: 14,
    isClear: true,
    isDemo: true,
    createdAt: now,
  })
  const dateSyrup = await boilDateSyrup(world, tx, actor, idOf)
  return {
    coffee: `ingredient:${idOf('Quay roast, ground (demo)')}`,
    milk: `ingredient:${idOf('Evaporated milk, whole')}`,
    plainMilk: `ingredient:${idOf('Whole milk, 3.25 % fat')}`,
    oat: `ingredient:${idOf('Oat drink (demo)')}`,
    water: `ingredient:${idOf('Drinking water')}`,
    ice: `ingredient:${idOf('Ice')}`,
    dateSyrup,
    vesselId,
  }
}

const SYRUP = 'Date-cardamom syrup (demo)'

async function boilDateSyrup(world: World, tx: Tx, actor: Actor, idOf: (name: string) => string): Promise<string> {
  const { cafeId } = actor
  const now = world.now()
  const preparationId = world.id()
  await addPreparation(tx, {
    id: preparationId,
    cafeId,
    name: SYRUP,
    kind: 'syrup',
    storageDeciC: 40,
    keepsHours: 168,
    isDemo: true,
    createdAt: now,
  })
  return `batch:${await boil(world, tx, actor, preparationId, idOf, { outputMg: 1_150_000, brixHundredths: 5_300 })}`
}

type CameOut = { readonly outputMg: number; readonly brixHundredths: number }

/** One batch of the date syrup, as the house boils it. */
async function boil(
  world: World,
  tx: Tx,
  { cafeId, userId }: Actor,
  preparationId: string,
  idOf: (name: string) => string,
  cameOut: CameOut,
): Promise<string> {
  const now = world.now()
  const batchId = world.id()
  const input = (name: string, grams: number) => ({
    id: world.id(),
    ingredientId: idOf(name),
    amountMg: grams * 1000,
    typed: String(grams),
    unit: 'g',
  })
  await addBatch(
    tx,
    {
      id: batchId,
      cafeId,
      preparationId,
      ...cameOut,
      microdensity: 1_246_000,
      madeAt: now,
      madeById: userId,
      createdAt: now,
      discardAt: new Date(now.getTime() + 168 * 3_600_000),
      steps: JSON.stringify([
        { text: 'Simmer paste, water and crushed pods under a lid', minutes: 15 },
        { text: 'Strain, weigh, cool quickly, date the bottle' },
      ]),
      note: 'Invented for the demo.',
    },
    [input('Date paste (demo)', 950), input('Drinking water', 600), input('Cardamom pods (demo)', 12)],
  )
  return batchId
}

/** The syrup is boiled again, as every week: the bar pours what is in date. */
export async function boilAgain(world: World, tx: Tx, actor: Actor): Promise<void> {
  const preparation = await findPreparationByName(tx, actor.cafeId, SYRUP)
  const all = await findIngredients(tx, actor.cafeId, dayIn(world.now(), 'UTC'))
  const idOf = (name: string) => all.find((ingredient) => ingredient.name === name)?.id ?? ''
  await boil(world, tx, actor, preparation?.id ?? '', idOf, { outputMg: 1_172_000, brixHundredths: 5_240 })
}
