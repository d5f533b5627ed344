import { fixed, money, plain } from '@/lib/base/number-format'
import type { IngredientCard } from '@/lib/tasks/read-ingredient'
import { sayDay } from '@/app/ui/moment'
import { Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { unitWords } from '@/app/ui/unit-words'

/** Contains, may contain, and what the rest means while nobody, or once somebody, has read the label. */
export function LabelPart({
  card,
  zone,
  allergens,
  source,
}: {
  card: IngredientCard
  zone: string
  allergens: readonly { readonly id: string; readonly name: string }[]
  source: string
}) {
  const { row } = card
  const stateOf = (id: string) => row.allergens.find((mark) => mark.allergen === id)?.state
  const named = (state: string) => allergens.filter((one) => stateOf(one.id) === state).map((one) => one.name)
  const rest = allergens.filter((one) => !['contains', 'may-contain'].includes(stateOf(one.id) ?? ''))
  const rows = [
    ['Contains', named('contains')],
    ['May contain', named('may-contain')],
    [row.labelReadAt ? 'Not named on the label' : 'Not stated', rest.map((one) => one.name)],
  ] as const
  return (
    <Section title="Allergens" aside={source}>
      <dl className="grid gap-2">
        {rows
          .filter(([, names]) => names.length > 0)
          .map(([words, names]) => (
            <div key={words} className="sm:grid sm:grid-cols-[13rem_1fr]">
              <dt className="font-semibold">{words}</dt>
              <dd>{names.join('; ')}</dd>
            </div>
          ))}
      </dl>
      <div className="mt-3">
        {row.labelReadAt ? (
          <p className="text-soft">
            Whole label read{card.labelReadBy && ` by ${card.labelReadBy}`}, {sayDay(row.labelReadAt, zone)}.
          </p>
        ) : (
          <Notice look="caution">
            Nobody has read its label: no panel can be opened with it, and nothing made with it may be called free from
            anything.
          </Notice>
        )}
      </div>
    </Section>
  )
}

export function IngredientFigures({ row, zone }: { row: IngredientCard['row']; zone: string }) {
  const grams = (mg: number | null) => (mg === null ? null : `${plain(mg / 1000, 2)}\u00a0g`)
  const caffeine =
    row.caffeineLowMg100g === null || row.caffeineHighMg100g === null
      ? null
      : `${plain(row.caffeineLowMg100g / 10, 1)} to ${plain(row.caffeineHighMg100g / 10, 1)}\u00a0mg`
  const rows: (readonly [string, string | null])[] = [
    ['Water', grams(row.waterMg)],
    ['Sugars', grams(row.sugarsMg)],
    ['Free (added) sugars', grams(row.freeSugarsMg)],
    ['As sweet as, in sucrose', row.sweetnessPercent === null ? null : `${row.sweetnessPercent}\u00a0g`],
    ['Fat', grams(row.fatMg)],
    ['Protein', grams(row.proteinMg)],
    ['Energy', row.energyDecikcal === null ? null : `${plain(row.energyDecikcal / 10, 1)}\u00a0kcal`],
    ['Coffee solids', grams(row.solidsMg)],
    ['Caffeine', caffeine],
    ['Density', row.microdensity === null ? null : `${fixed(row.microdensity / 1_000_000, 3)}\u00a0g/ml`],
    ['Sugar (Brix)', row.brixHundredths === null ? null : `${plain(row.brixHundredths / 100, 2)}\u00a0°Bx`],
  ]
  const unknown = rows.filter(([, value]) => value === null).map(([words]) => words.toLowerCase())
  return (
    <div className="max-w-xl">
      <dl>
        {rows.map(
          ([words, value]) =>
            value !== null && (
              <div key={words} className="flex justify-between gap-4 border-b border-line py-1.5">
                <dt>{words}</dt>
                <dd className="font-semibold">{value}</dd>
              </div>
            ),
        )}
      </dl>
      {unknown.length > 0 && <p className="mt-2 text-s text-soft">Not known: {unknown.join(', ')}.</p>}
      <p className="mt-2 text-s text-soft">
        {row.figuresSource ? `Source: ${row.figuresSource}` : 'No source given'}
        {row.figuresDate && `, ${sayDay(row.figuresDate, zone)}`}.{row.keepsColdNote && ` ${row.keepsColdNote}`}
      </p>
      {row.note && <p className="mt-2 whitespace-pre-line">{row.note}</p>}
    </div>
  )
}

export function PricePart({
  prices,
  cafe,
}: {
  prices: IngredientCard['prices']
  cafe: { readonly currency: string; readonly currencyDigits: number; readonly timeZone: string }
}) {
  const per = (price: IngredientCard['prices'][number]) =>
    money((price.priceMinor * 1_000_000) / price.packMg / (price.usableBp / 10_000), cafe.currency, cafe.currencyDigits)
  return (
    <Section title="Prices" aside="Added, never changed; the newest counts">
      {prices.length === 0 ? (
        <p className="text-soft">No price yet: its part of the cost is not known.</p>
      ) : (
        <ScrollTable label="Prices" heads={['Since', 'Pack', 'Price', 'Per usable kg', 'Entered by']}>
          {prices.map((price) => [
            price.id,
            sayDay(price.since, cafe.timeZone),
            `${price.packTyped} ${unitWords(price.packUnit)}`,
            money(price.priceMinor, cafe.currency, cafe.currencyDigits),
            per(price),
            <span key="by" className="text-soft">
              {price.by ?? 'the house'}
              {price.note && `: ${price.note}`}
            </span>,
          ])}
        </ScrollTable>
      )}
    </Section>
  )
}
