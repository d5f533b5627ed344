import type { IngredientCard } from '@/lib/tasks/read-ingredient'

const over = (value: number | null, by: number) => (value === null ? '' : String(value / by))

/** An ingredient as its form fields hold it. */
export function ingredientDefaults({ row }: IngredientCard) {
  return {
    name: row.name,
    kind: row.kind,
    form: row.form,
    density: over(row.microdensity, 1_000_000),
    brix: over(row.brixHundredths, 100),
    water: over(row.waterMg, 1000),
    sugars: over(row.sugarsMg, 1000),
    freeSugars: over(row.freeSugarsMg, 1000),
    fat: over(row.fatMg, 1000),
    protein: over(row.proteinMg, 1000),
    energy: over(row.energyDecikcal, 10),
    solids: over(row.solidsMg, 1000),
    caffeineLow: over(row.caffeineLowMg100g, 10),
    caffeineHigh: over(row.caffeineHighMg100g, 10),
    sweetness: over(row.sweetnessPercent, 1),
    keepsCold: row.keepsColdNote ?? '',
    source: row.figuresSource ?? '',
    sourceDay: row.figuresDate?.toISOString().slice(0, 10) ?? '',
    note: row.note ?? '',
    labelRead: row.labelReadAt ? 'on' : undefined,
    allergens: Object.fromEntries(row.allergens.map(({ allergen, state }) => [allergen, state])),
  }
}
