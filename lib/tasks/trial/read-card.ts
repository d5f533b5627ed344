import 'server-only'
import { sayAllergens } from '@/lib/drink/allergen'
import { written } from '@/lib/drink/figure'
import { scaleSheet } from '@/lib/drink/scale'
import type { TrialBuild } from '@/lib/drink/trial'
import { findAdoption } from '@/lib/db/recipes'
import { readGlasses } from './panel-glasses'
import { readTrial, type TrialSheet } from './read-trial'
import { namedByPreparation } from './todays-batches'
import type { World, Reader } from '../world'

/** What stands on a card: the sheet, the steps beside the scale, and the decision that made it house recipe. */
export async function readCard(world: World, reader: Reader, trialId: string) {
  const sheet = await readTrial(world, reader, trialId)
  if (!sheet) return null
  const adopted = await findAdoption(world.db, reader.cafeId, sheet.trial.recipeId, trialId)
  const { allergenList } = reader.cafe
  const glasses = await readGlasses(world.db, reader.cafeId, allergenList, [sheet.trial], world.now())
  const allergens = sayAllergens(sheet.figures.allergens)
  return {
    sheet,
    scale: scaleSheet(namedByPreparation(sheet.build), 1, sheet.forToday),
    /** of each line that names a preparation: how much of another batch holds the same sugar */
    otherBatches: otherBatches(sheet),
    adopted,
    keeping: keepingOf(namedByPreparation(sheet.build)),
    /** the first of the sheet’s cautions, which stand in a box of their own; the others */
    allergens,
    /** what nobody has read the label of, today or on its day: until somebody has, no card is printed */
    unread: glasses.get(trialId)?.unread ?? [],
    otherCautions: sheet.figures.cautions.filter((words) => !allergens.includes(words)),
  }
}

/** A card hangs for months: what stands on it of a batch is what it was settled with, and the rule for any other. */
function otherBatches({ todays }: TrialSheet): readonly string[] {
  return todays.flatMap(({ name, dose, byBrix, doseBrix }) => {
    const first = `${name}: the batch in date that must go first`
    if (!byBrix) return [`${first}.`]
    if (doseBrix === null) return [`${first}. Which °Bx the dose is for is not known.`]
    const [reads, grams] = [written(doseBrix, 1), written(dose, 1)]
    return [
      `${first}. ${grams} g are for ${reads} °Bx; where it reads more than 1 °Bx otherwise, ${grams} × ${reads} ÷ its °Bx holds the same sugar, untasted.`,
    ]
  })
}

/** How what is poured is kept until it is. */
export function keepingOf({ lines }: TrialBuild): readonly string[] {
  return lines.flatMap((line) => {
    if (line.kind === 'milk') return [`${line.name}: 5 °C or colder, dated when opened`]
    if (!line.preparation) return []
    const at = line.preparation.storageTemperature
    return [`${line.name}: ${at === null ? 'as its bottle says' : `at ${at} °C`}, until the discard date on the bottle`]
  })
}

export type CardSheet = NonNullable<Awaited<ReturnType<typeof readCard>>>
