'use client'

import { useEffect, useState, type ComponentProps, type ReactNode } from 'react'
import { DiskNotice } from './disk-notice'
import { Notice } from './notice'
import { sayWatched } from './say-watched'
import { SeatTable, type WatchedSeat } from './seat-table'

interface Watched {
  readonly disk: ComponentProps<typeof DiskNotice>['disk']
  readonly stage: string
  readonly seats: readonly WatchedSeat[]
}

/** Asked often enough that a score is seen within two seconds. */
const everyMs = 1200
/** A screen reader hears at most one sentence in this time. */
const quietMs = 20_000

/** How far each seat has come, asked again and again while the page is in front. */
export function SeatWatch({
  first,
  from,
  zone,
  actAt,
  children,
}: {
  readonly first: Watched
  readonly from: string
  /** the café’s time zone */
  readonly zone: string
  /** where something is done about a seat, up to its number */
  readonly actAt?: string | undefined
  /** the next act, under the sentence */
  readonly children?: ReactNode
}) {
  const { now, lost } = useWatched(first, from)
  const sentence = sayWatched(now)
  const spoken = useSeldom(sentence)
  return (
    <div className="grid gap-6">
      <p className="max-w-prose text-l">{sentence}</p>
      <p className="sr-only" role="status">
        {spoken}
      </p>
      <DiskNotice disk={now.disk} live />
      {children}
      {lost && (
        <Notice look="caution" word="Not up to date" live>
          The café’s computer does not answer; this page keeps trying.
        </Notice>
      )}
      <SeatTable seats={now.seats} zone={zone} actAt={actAt} />
      {now.seats.some(({ unpoured, scored }) => unpoured === null && scored > 0) && (
        <p className="max-w-prose text-soft">
          Nobody has ticked a cup as poured on the serving list, so this page cannot tell whether a score stands on a
          cup that was never poured.
        </p>
      )}
    </div>
  )
}

function useWatched(first: Watched, from: string): { now: Watched; lost: boolean } {
  const [now, setNow] = useState(first)
  const [misses, setMisses] = useState(0)
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined
    let over = false
    async function ask() {
      try {
        const answer = await fetch(from, { cache: 'no-store' })
        if (!answer.ok) throw new Error(String(answer.status))
        const next = (await answer.json()) as Watched
        if (over) return
        setNow(next)
        setMisses(0)
      } catch {
        if (!over) setMisses((n) => n + 1)
      }
      if (!over && document.visibilityState === 'visible') timer = setTimeout(ask, everyMs)
    }
    const wake = () => {
      clearTimeout(timer)
      if (document.visibilityState === 'visible') void ask()
    }
    timer = setTimeout(ask, everyMs)
    document.addEventListener('visibilitychange', wake)
    return () => {
      over = true
      clearTimeout(timer)
      document.removeEventListener('visibilitychange', wake)
    }
  }, [from])
  return { now, lost: misses >= 3 }
}

/** The sentence as it stood at the last quiet moment. */
function useSeldom(sentence: string): string {
  const [spoken, setSpoken] = useState('')
  useEffect(() => {
    const timer = setTimeout(() => setSpoken(sentence), spoken === '' ? 1000 : quietMs)
    return () => clearTimeout(timer)
    // Only a new sentence starts a new silence.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [sentence])
  return spoken
}
