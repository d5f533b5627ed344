import { fixed, plain } from '@/lib/base/number-format'
import type { FillingSheet, JugFill } from '@/lib/tasks/pour/read-jug-fills'
import { AskedNumber } from '@/app/ui/asked-number'
import { Button } from '@/app/ui/button'
import { Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'
import { MadeFirst } from '@/app/ui/made-first'
import { PastBatches } from '@/app/ui/past-batches'
import { sayTodaysBatch } from '@/app/ui/todays-batches'
import { sayPresses } from '@/app/ui/unit-words'
import { sayBrewing } from '../../../trials/[trialId]/say-brewing'
import { sayTooCoarse } from '../../../trials/[trialId]/scale/say-scale'

const grams = (value: number) => `${plain(value, value < 10 ? 2 : 1)} g`

/** What goes into one jug, in the order of its sheet; or what must be known first. */
export function JugParts({ fill }: Pick<JugFill, 'fill'>) {
  if (fill === null) return null
  if (!fill.known)
    return (
      <p>
        <strong className="text-caution">What goes in cannot be said yet.</strong> To be known first:{' '}
        {fill.missing.join('; ')}.
      </p>
    )
  return (
    <>
      <ul className="grid gap-1">
        {fill.lines.map((line) => (
          <li key={line.key} className="flex justify-between gap-x-4">
            <span>
              {line.name}
              {line.brew && (
                <span className="block text-s text-soft">
                  {sayBrewing(line.brew)}; {grams(line.brew.beverage)} goes in
                </span>
              )}
              {line.presses !== null && <span className="block text-s text-soft">{sayPresses(line.presses)}</span>}
              {line.tooCoarse && <span className="block text-s text-caution">{sayTooCoarse(line.tooCoarse)}</span>}
            </span>
            <strong className="whitespace-nowrap">
              {grams(line.grams)}
              {line.brew && ' dry'}
              {line.tolerance && (
                <span className="font-normal"> ± {fixed(line.tolerance.grams, line.tolerance.decimals)}</span>
              )}
            </strong>
          </li>
        ))}
      </ul>
      {fill.meltGrams !== null && fill.meltGrams > 0 && (
        <p className="mt-1 text-s text-soft">
          {plain(fill.meltGrams, 0)} g of its ice melts into it, by the temperatures that are said: stir until it has
          settled, then strain.
        </p>
      )}
    </>
  )
}

/** Temperatures that nobody has said: asked by address, and never taken for granted. */
export function WarmthFields({ warmth, opening }: Pick<FillingSheet, 'warmth'> & { opening: string }) {
  if (warmth.length === 0) return null
  return (
    <form className="screen-only grid max-w-md gap-4 rounded border border-line bg-raised p-4">
      <input type="hidden" name="opening" value={opening} />
      <p>
        How much ice melts into a jug depends on how warm all is when it is poured. Measure what the sheets do not say:
      </p>
      {warmth.map(({ name, field, typed, problem }) => (
        <AskedNumber key={field} name={field} label={name} unit="°C" typed={typed} problem={problem} />
      ))}
      <div>
        <Button type="submit">Work it out</Button>
      </div>
    </form>
  )
}

/** Batches for all jugs together, with what goes in. */
export function JugBatches({ batches }: Pick<FillingSheet, 'batches'>) {
  if (batches.length === 0) return null
  return (
    <Section
      title="Make first, for all jugs"
      aside="As the batch of each sheet was made, or by the formula; take off what is open and in date"
    >
      <ol className="grid gap-4">
        {batches.map((batch, place) => (
          <li key={`${place} ${batch.name}`} className="break-inside-avoid">
            <p className="font-semibold">
              {batch.name}, {grams(batch.grams)}
            </p>
            <ul className="ms-4">
              {batch.inputs.map((input, at) => (
                // the same thing may be weighed in twice
                <li key={`${at} ${input.name}`}>
                  {input.name}: {grams(input.grams)}
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ol>
    </Section>
  )
}

/** What one is warned of before anything is made: what burns, and what is past its date. */
export function JugCautions({ sheet: { past, cautions, jugs, first }, zone }: { sheet: FillingSheet; zone: string }) {
  const named = jugs.filter(({ todays }) => todays.length > 0)
  return (
    <>
      <PastBatches past={past} zone={zone} />
      {named.length > 0 && (
        <Notice look="note" word="Batches poured">
          <ul className="grid gap-1">
            {named.flatMap(({ letter, todays }) =>
              todays.map((today) => (
                <li key={`${letter} ${today.key}`}>
                  Jug {letter}, {today.name}: {sayTodaysBatch(today, zone)}
                </li>
              )),
            )}
          </ul>
        </Notice>
      )}
      <MadeFirst first={first} />
      {cautions.length > 0 && <Notice look="caution">{cautions.join(' ')}</Notice>}
    </>
  )
}
