import { fixed, money, plain } from '@/lib/base/number-format'
import type { ReactNode } from 'react'
import type { IngredientCard } from '@/lib/tasks/store/read-ingredient'
import { Button } from '@/app/ui/button'
import { sayCalendarDay, sayDay } from '@/app/ui/moment'
import { Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { unitWords } from '@/app/ui/unit-words'
import { sayMeasured } from '../../say-store'

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

function densityOf({ microdensity, densityIsAssumed }: IngredientCard['row']): string | null {
  if (microdensity === null) return null
  return `${fixed(microdensity / 1_000_000, 3)}\u00a0g/ml${densityIsAssumed ? ', assumed' : ''}`
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
    ['Alcohol', row.alcoholBp === null ? null : `${plain(row.alcoholBp / 100, 2)}\u00a0% by volume`],
    ['Density', densityOf(row)],
    ['Sugar (Brix)', row.brixHundredths === null ? null : `${plain(row.brixHundredths / 100, 2)}\u00a0°Bx`],
  ]
  const dose = sayMeasured(row)
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
      {dose !== null && <p className="mt-2">{dose}</p>}
      <p className="mt-2 text-s text-soft">
        {row.figuresSource ? `Source: ${row.figuresSource}` : 'No source given'}
        {row.figuresDate && `, ${sayDay(row.figuresDate, zone)}`}.{row.supplier && ` Supplier: ${row.supplier}.`}
        {row.keepsColdNote && ` ${row.keepsColdNote}`}
      </p>
      {row.note && <p className="mt-2 whitespace-pre-line">{row.note}</p>}
    </div>
  )
}

export function PricePart({
  card: { row, prices },
  cafe,
  strike,
}: {
  card: IngredientCard
  cafe: { readonly currency: string; readonly currencyDigits: number; readonly timeZone: string }
  /** strikes out a price; null for somebody who may not */
  strike: ((priceId: string) => Promise<void>) | null
}) {
  const said = (minor: number) => money(minor, cafe.currency, cafe.currencyDigits)
  const per = (price: IngredientCard['prices'][number]) =>
    price.isBad ? 'not known' : said((price.priceMinor * 1_000_000) / price.packMg / (price.usableBp / 10_000))
  const bad = prices.find((price) => price.counts && price.isBad)
  return (
    <Section title="Prices" aside="Added, never changed; the newest day counts">
      {bad && (
        <div className="mb-3">
          <Notice look="caution" word="Price not known">
            {said(bad.priceMinor)} for {bad.packTyped} {unitWords(bad.packUnit)} cannot be: its pack or its usable share
            comes to nothing.{' '}
            {strike ? 'Strike it out, then add the right one.' : 'Somebody who writes recipes can strike it out.'}
          </Notice>
        </div>
      )}
      {prices.length === 0 ? (
        <p className="text-soft">No price yet: its part of the cost is not known.</p>
      ) : (
        <ScrollTable label="Prices" heads={['From', 'Pack', 'Price', 'Per usable kg', 'Entered by', 'State']}>
          {prices.map((price) => [
            price.id,
            <Struck key="from" price={price}>
              {price.day === '' ? sayDay(price.since, cafe.timeZone) : sayCalendarDay(price.day)}
            </Struck>,
            <Struck key="pack" price={price}>{`${price.packTyped} ${unitWords(price.packUnit)}`}</Struck>,
            <Struck key="price" price={price}>
              {said(price.priceMinor)}
            </Struck>,
            <Struck key="per" price={price}>
              {per(price)}
            </Struck>,
            <span key="by" className="text-soft">
              {price.by ?? 'the house'}
              {price.note && `: ${price.note}`}
            </span>,
            <PriceState key="state" price={price} name={row.name} said={said(price.priceMinor)} strike={strike} />,
          ])}
        </ScrollTable>
      )}
    </Section>
  )
}

type Price = IngredientCard['prices'][number]

function Struck({ price, children }: { price: Price; children: ReactNode }) {
  return price.struckAt ? <s>{children}</s> : children
}

/** Whether a price counts, and the button that strikes it out. */
function PriceState({
  price,
  name,
  said,
  strike,
}: {
  price: Price
  name: string
  said: string
  strike: ((priceId: string) => Promise<void>) | null
}) {
  if (price.struckAt) return <span className="text-soft">struck out{price.struckBy && ` by ${price.struckBy}`}</span>
  return (
    <span className="flex flex-wrap items-center gap-x-3">
      {price.counts && <strong>counts today</strong>}
      {strike && (
        <form action={strike.bind(null, price.id)}>
          <Button type="submit" look="quiet">
            Strike out
            <span className="sr-only">
              {' '}
              {said} of {name}
            </span>
          </Button>
        </form>
      )}
    </span>
  )
}

/** Figures that do not fit one another: nothing is refused for it. */
export function Doubts({ doubts }: { doubts: readonly string[] }) {
  return doubts.map((doubt) => (
    <Notice key={doubt} look="caution" word="Look again">
      {doubt}
    </Notice>
  ))
}
