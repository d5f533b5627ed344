import type { ReactNode } from 'react'

const looks = {
  note: { box: 'border-line bg-raised text-ink', word: 'Note' },
  caution: { box: 'border-caution bg-caution-paper text-caution', word: 'Caution' },
  stop: { box: 'border-stop bg-stop-paper text-stop', word: 'Stop' },
} as const

/**
 * A sentence that must not be missed. The word in front says what it is, so that colour is never alone.
 * `live` for what appears after something the reader did.
 */
export function Notice({
  look = 'note',
  word,
  live = false,
  children,
}: {
  look?: keyof typeof looks
  word?: string
  live?: boolean
  children: ReactNode
}) {
  return (
    <div role={live ? 'status' : undefined} className={`rounded border-s-4 border px-4 py-3 ${looks[look].box}`}>
      <strong className="font-semibold">{word ?? looks[look].word}:</strong>{' '}
      <span className="text-ink">{children}</span>
    </div>
  )
}

/** The line that goes wherever food safety is touched. */
export const localRules =
  'Follow your local food-safety rules; this does not replace a licensed food-safety professional.'
