import type { PanelReading } from '@/lib/tasks/plan/panel-reading'
import { Notice } from '@/app/ui/notice'
import { sayTodaysBatch } from '@/app/ui/todays-batches'
import { cupName } from '../panel-words'

/** Which batch goes into each cup whose sheet names a preparation, and where two cups would get two of one. */
export function CupBatches({ panel: { cups, apart }, zone }: { panel: PanelReading; zone: string }) {
  const named = cups.filter((cup) => !cup.isDuplicate && cup.todays.length > 0)
  if (named.length === 0 && apart.length === 0) return null
  const isFine = named.every(({ todays }) =>
    todays.every(
      ({ batch, discardAt, otherwise }) =>
        batch !== null && discardAt !== null && (otherwise === null || otherwise.dose === 'stays'),
    ),
  )
  return (
    <>
      {apart.map(({ name, batches }) => (
        <Notice key={name} look="caution" word={`${name}: two batches`}>
          {batches.map(({ number, cups: all }) => `Batch ${number} goes into ${all.join('; ')}.`).join(' ')} What
          differs between batches is tasted too: pour one batch into all cups, or say in each trial which.
        </Notice>
      ))}
      {named.length > 0 && (
        <Notice look={isFine ? 'note' : 'caution'} word="Batches poured">
          <ul className="grid gap-1">
            {named.flatMap((cup) =>
              cup.todays.map((today) => (
                <li key={`${cup.trialId} ${today.key}`}>
                  {cupName(cup)}, line {today.line}, {today.name}: {sayTodaysBatch(today, zone)}
                </li>
              )),
            )}
          </ul>
        </Notice>
      )}
    </>
  )
}
