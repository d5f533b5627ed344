import { money, plain } from '@/lib/base/number-format'
import type { Buy, ToMake } from '@/lib/tasks/trial/read-make'
import { Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'

interface Currency {
  readonly currency: string
  readonly currencyDigits: number
}

const grams = (value: number) => `${plain(value, value < 10 ? 2 : 1)} g`

/** What to bring in, what to make first, what to weigh: in the order in which it is done. */
export function MakeLists({ make, currency }: { make: ToMake; currency: Currency }) {
  const brewWater = make.lines.reduce((all, { brew }) => all + (brew?.water ?? 0), 0)
  return (
    <>
      <Section title="Bring in" aside="Down through every preparation; prices of today">
        <Shopping buy={make.buy} currency={currency} />
        {brewWater > 0 && <p className="mt-2">Beside these, {grams(brewWater)} of water to brew with.</p>}
      </Section>
      {make.preparations.length > 0 && (
        <Section title="Make first" aside="By what the last batch gave; what is open and in date counts against it">
          <ol className="grid gap-4">
            {make.preparations.map((batch) => (
              <li key={batch.name} className="break-inside-avoid">
                <Step words={`${batch.name}, ${grams(batch.grams)}`} />
                <ul className="ms-8">
                  {batch.inputs.map((input, place) => (
                    // the same thing may be weighed in twice
                    <li key={`${place}-${input.name}`}>
                      {input.name}: {grams(input.grams)}
                    </li>
                  ))}
                </ul>
              </li>
            ))}
          </ol>
        </Section>
      )}
      <Section title="Weigh" aside="In the order of the sheet">
        <ol className="grid gap-2">
          {make.lines.map((line) => (
            <li key={line.key} className="break-inside-avoid">
              {line.brew ? (
                <>
                  <Step words={`${line.name}: ${grams(line.grams)} dry`} />
                  <p className="ms-8">
                    brewed with {grams(line.brew.water)} of water; {grams(line.brew.beverage)} goes in
                  </p>
                </>
              ) : (
                <Step words={`${line.name}: ${grams(line.grams)}`} />
              )}
            </li>
          ))}
        </ol>
      </Section>
    </>
  )
}

/** A step to tick off, on this page or on paper; nothing of it is kept. */
function Step({ words }: { words: string }) {
  return (
    <label className="flex min-h-11 items-center gap-3 font-semibold">
      <input type="checkbox" className="size-5 shrink-0 accent-[var(--accent)]" />
      {words}
    </label>
  )
}

function Shopping({ buy, currency: { currency, currencyDigits } }: { buy: readonly Buy[]; currency: Currency }) {
  const amount = (value: number) => money(Math.round(value * 10 ** currencyDigits), currency, currencyDigits)
  const known = buy.flatMap(({ cost }) => cost ?? [])
  const without = buy.filter(({ cost }) => cost === null).map(({ name }) => name)
  return (
    <>
      <ScrollTable label="What to bring in" heads={['What', 'Needed', 'Packs', 'Cost of what is used']}>
        {buy.map(({ name, grams: needed, packs, cost }) => [
          name,
          name,
          grams(needed),
          packs === null ? 'not known' : `${plain(packs.count)} of ${plain(packs.grams, 1)} g`,
          cost === null ? 'not known' : amount(cost),
        ])}
      </ScrollTable>
      <p className="mt-2">
        {known.length === 0
          ? 'What it costs is not known: nothing here has a price.'
          : `${amount(known.reduce((all, cost) => all + cost, 0))} together${without.length > 0 ? `, without ${without.join('; ')}, which has no price` : ''}.`}
      </p>
    </>
  )
}
