import { DENSITY, PERCENT, printed } from '@/lib/forms/number-fields'
import { doseDefaults } from '../../dose-defaults'
import type { IngredientCard } from '@/lib/tasks/store/read-ingredient'

const grams = (mg: number | null) => printed(mg === null ? null : mg / 1000, PERCENT)
const tenths = (value: number | null) => printed(value === null ? null : value / 10, { least: 0, most: 10_000 })

/** An ingredient as its form fields hold it. */
export function ingredientDefaults({ row }: IngredientCard) {
  return {
    name: row.name,
    kind: row.kind,
    form: row.form,
    density: printed(row.microdensity === null ? null : row.microdensity / 1_000_000, DENSITY),
    densityIsAssumed: row.densityIsAssumed ? 'on' : undefined,
    brix: printed(row.brixHundredths === null ? null : row.brixHundredths / 100, PERCENT),
    water: grams(row.waterMg),
    sugars: grams(row.sugarsMg),
    freeSugars: grams(row.freeSugarsMg),
    fat: grams(row.fatMg),
    protein: grams(row.proteinMg),
    energy: tenths(row.energyDecikcal),
    solids: grams(row.solidsMg),
    caffeineLow: tenths(row.caffeineLowMg100g),
    caffeineHigh: tenths(row.caffeineHighMg100g),
    sweetness: printed(row.sweetnessPercent, { least: 0, most: 100_000 }),
    alcohol: printed(row.alcoholBp === null ? null : row.alcoholBp / 100, PERCENT),
    ...doseDefaults(row),
    openHours: row.openHours === null ? '' : String(row.openHours),
    keepsCold: row.keepsColdNote ?? '',
    supplier: row.supplier ?? '',
    source: row.figuresSource ?? '',
    sourceDay: row.figuresDate?.toISOString().slice(0, 10) ?? '',
    note: row.note ?? '',
    labelRead: row.labelReadAt ? 'on' : undefined,
    allergens: Object.fromEntries(row.allergens.map(({ allergen, state }) => [allergen, state])),
  }
}
