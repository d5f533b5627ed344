import { Notice } from '@/app/ui/notice'

/** What became of the counts that were to be kept. @param kept  how many, or why none */
export function Kept({ kept }: { kept: string | undefined }) {
  if (kept === undefined) return null
  if (kept === 'mistyped')
    return (
      <Notice look="caution" word="Not kept">
        One of the amounts cannot be read: see beside its field. None was kept.
      </Notice>
    )
  if (kept === 'gone')
    return (
      <Notice look="caution" word="Not kept">
        What was counted here was put aside meanwhile.
      </Notice>
    )
  const count = /^\d{1,4}$/.test(kept) ? Number(kept) : 0
  return (
    <Notice look="note" word={count === 0 ? 'Nothing new to keep' : 'Kept'}>
      {count === 0
        ? 'Type what is on the shelf first; what was counted today already stands.'
        : `${count === 1 ? 'One count' : `${count} counts`}, with the moment. It is offered here for the rest of the day.`}
    </Notice>
  )
}
