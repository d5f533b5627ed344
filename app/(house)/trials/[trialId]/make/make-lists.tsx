import { coins, fixed, plain } from '@/lib/base/number-format'
import type { OnShelf } from '@/lib/tasks/bar/on-shelf'
import type { ReadMake, ToMake } from '@/lib/tasks/trial/read-make'
import { sayNoneInDate } from '@/app/ui/made-first'
import { Cautions } from '@/app/ui/cautions'
import { Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { sayPresses } from '@/app/ui/unit-words'
import { sayBrewing } from '../say-brewing'
import { sayTooCoarse } from '../scale/say-scale'
import { sayOnShelf } from './say-make'

const grams = (value: number) => `${plain(value, value < 10 ? 2 : 1)} g`

const sayNear = ({ tolerance }: ToMake['lines'][number]) =>
  tolerance === null ? '' : `\u00a0±\u00a0${fixed(tolerance.grams, tolerance.decimals)}`

/** What to bring in, what to make first, what to weigh: in the order in which it is done. */
export function MakeLists({
  make,
  first,
  onShelf,
  currency,
}: {
  make: ToMake
  first: ReadMake['first']
  onShelf: readonly OnShelf[]
  currency: string
}) {
  return (
    <>
      <Cautions said={make.cautions} />
      <Section title="Bring in" aside="Down through every preparation; prices of today">
        <Shopping make={make} currency={currency} />
        {make.brewWater > 0 && <p className="mt-2">Beside these, {grams(make.brewWater)} of water to brew with.</p>}
      </Section>
      <MakeFirst preparations={make.preparations} first={first} onShelf={onShelf} />
      <Section title="Weigh" aside="In the order of the sheet">
        <ol className="grid gap-2">
          {make.lines.map((line) => (
            <li key={line.key} className="break-inside-avoid">
              {line.brew ? (
                <>
                  <Step words={`${line.name}: ${grams(line.grams)} dry${sayNear(line)}`} />
                  <p className="ms-8">
                    {sayBrewing(line.brew)}; {grams(line.brew.beverage)} goes in
                  </p>
                </>
              ) : (
                <Step
                  words={`${line.name}: ${grams(line.grams)}${sayNear(line)}${line.presses === null ? '' : `, ${sayPresses(line.presses)}`}`}
                />
              )}
              {line.tooCoarse && <p className="ms-8 text-s text-caution">{sayTooCoarse(line.tooCoarse)}</p>}
            </li>
          ))}
        </ol>
      </Section>
    </>
  )
}

/** Batches to make, less what is there; where one is in date and nobody said how much is left, that is said. */
function MakeFirst({
  preparations,
  first,
  onShelf,
}: Pick<ToMake, 'preparations'> & Pick<ReadMake, 'first'> & { onShelf: readonly OnShelf[] }) {
  const batches = onShelf.filter(({ kind }) => kind === 'batch')
  if (preparations.length === 0 && batches.length === 0) return null
  const shelfOf = (name: string) => batches.filter((one) => one.name === name)
  const names = [...new Set(batches.map(({ name }) => name))]
  return (
    <Section title="Make first" aside="By what the batch of this sheet gave, or by the formula">
      {names
        .filter((name) => !preparations.some((batch) => batch.name === name))
        .map((name) => (
          <p key={name}>
            {name}: {sayOnShelf(shelfOf(name), null)}
          </p>
        ))}
      <ol className="grid gap-4">
        {preparations.map((batch) => {
          const shelf = shelfOf(batch.name)
          return (
            <li key={batch.name} className="break-inside-avoid">
              <Step words={`${batch.name}, ${grams(batch.grams)}`} />
              <p className="ms-8 text-s text-soft">
                {shelf.length > 0
                  ? sayOnShelf(shelf, batch.grams)
                  : sayNoneInDate(first.find(({ name }) => name === batch.name))}
              </p>
              <ul className="ms-8">
                {batch.inputs.map((input, place) => (
                  // the same thing may be weighed in twice
                  <li key={`${place}-${input.name}`}>
                    {input.name}: {grams(input.grams)}
                  </li>
                ))}
              </ul>
            </li>
          )
        })}
      </ol>
    </Section>
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

function Shopping({ make: { buy, cost: together }, currency }: { make: ToMake; currency: string }) {
  const amount = (value: number) => `${coins(value, currency)}\u00a0${currency}`
  const without = together.without.length > 0 ? `, without ${together.without.join('; ')}: no price is known` : ''
  return (
    <>
      <ScrollTable label="What to bring in" heads={['What', 'Needed', 'There', 'Packs to buy', 'Cost of what is used']}>
        {buy.map(({ name, grams: needed, there, packs, cost }) => [
          name,
          name,
          grams(needed),
          there === null ? 'not said' : grams(there),
          packs === null
            ? sayUnpacked(needed, there)
            : packs.count === 0
              ? 'none'
              : `${plain(packs.count)} of ${plain(packs.grams, 1)} g`,
          cost === null ? 'not known' : amount(cost),
        ])}
      </ScrollTable>
      <p className="mt-2">
        {together.known === null
          ? 'What it costs is not known: nothing here has a price.'
          : `${amount(together.known)} together${without}.`}
      </p>
    </>
  )
}

/** Where no pack is known: what is still to bring in. */
const sayUnpacked = (needed: number, there: number | null) =>
  there === null ? 'not known' : there >= needed ? 'none' : `not known, ${grams(needed - there)} to bring in`
