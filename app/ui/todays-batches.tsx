import { fixed } from '@/lib/base/number-format'
import type { TodaysBatch } from '@/lib/tasks/trial/todays-batches'
import { sayMoment } from './moment'
import { Notice } from './notice'
import { askDate } from './past-batches'

/** "by batch 4 today, good until 29 Nov 2026, 10:00." and what becomes of the dose where another batch was meant. */
export function sayTodaysBatch(today: TodaysBatch, zone: string): string {
  const { batch, discardAt, before, wasPoured } = today
  if (batch === null)
    return 'no batch is in date. Make one first: what is past its date is never poured, and until then nobody knows what this line brings.'
  const until = discardAt ? `good until ${sayMoment(discardAt, zone)}` : 'its date not known'
  const ask = discardAt ? '' : ` ${askDate}`
  const other =
    before === null || before.id === batch.id
      ? ''
      : ` The sheet was ${wasPoured ? 'settled' : 'written'} with batch ${before.number}.`
  return `by batch ${batch.number} today, ${until}.${ask}${other}${sayDose(today, batch.number)}`
}

function sayDose({ otherwise, dose, before, isUnread }: TodaysBatch, now: number): string {
  const was = before === null ? 'its formula' : `batch ${before.number}`
  if (otherwise?.dose === 'corrected')
    return ` Batch ${now} reads ${fixed(otherwise.reads, 1)} °Bx, ${was} ${before === null ? 'says ' : ''}${fixed(otherwise.was, 1)}: ${fixed(otherwise.grams, 1)} g in the place of ${fixed(dose, 1)} g hold the same sugar. Untasted.`
  if (otherwise?.dose === 'unknown') {
    const lacks = otherwise.lacks.map((which) => (which === 'was' ? was : `batch ${now}`))
    return ` The °Bx of ${lacks.join(' and ')} is not known, so nobody can say which dose holds the same sugar: read or weigh it before it is poured.`
  }
  return isUnread
    ? ` The °Bx of batch ${now} is not known: read it, so that the next batch can be held against it.`
    : ''
}

/** Of each line that names a preparation: which batch stands for it today. */
export function TodaysBatches({ todays, zone }: { todays: readonly TodaysBatch[]; zone: string }) {
  return todays.map((today) => {
    const isFine =
      today.batch !== null && today.discardAt !== null && (today.otherwise === null || today.otherwise.dose === 'stays')
    return (
      <Notice key={today.key} look={isFine ? 'note' : 'caution'} word={`Line ${today.line}, ${today.name}`}>
        {sayTodaysBatch(today, zone)}
      </Notice>
    )
  })
}
