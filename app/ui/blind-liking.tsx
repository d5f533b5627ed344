import Link from 'next/link'
import { fixed } from '@/lib/base/number-format'
import type { BlindLiking } from '@/lib/tasks/result/blind-liking'
import { DemoMark } from './demo-mark'
import { sayDay } from './moment'

type NoNumber = Extract<BlindLiking, { said: 'no-number' }>

const whyNone: Readonly<Record<NoNumber['why'], string>> = {
  'not-asked': 'Tasted blind, liking not asked',
  'not-scored': 'Tasted blind, liking not scored',
  'not-kept': 'Tasted blind; its panel keeps no number',
  'earlier-rule': 'Tasted blind, told by an earlier rule',
}

/** How a trial was liked, in words; the panel it was liked in stands apart. */
function sayLiking(liking: BlindLiking): string {
  switch (liking.said) {
    case 'not-tasted':
      return 'not tasted'
    case 'poured-now':
      return 'In an open panel: nothing is said before it closes'
    case 'no-number':
      return whyNone[liking.why]
    case 'liked':
      return `Liked ${fixed(liking.mean, 2)}${sayRange(liking.interval)}`
  }
}

const sayRange = (interval: readonly [number, number] | null) =>
  interval ? ` (${fixed(interval[0], 2)} to ${fixed(interval[1], 2)})` : ', no interval'

/** Liking with the panel it comes from, whose result says whether two trials differ. */
export function LikingLines({ liking, zone }: { liking: BlindLiking; zone: string }) {
  const said = sayLiking(liking)
  if (liking.said === 'not-tasted' || liking.said === 'poured-now')
    return <span className="block text-soft">{said}</span>
  const { panel } = liking
  return (
    <>
      <span className={`block ${liking.said === 'liked' ? 'font-semibold' : 'text-soft'}`}>{said}</span>
      <span className="block text-s text-soft">
        {liking.said === 'liked' && `${liking.tasters} ${liking.tasters === 1 ? 'taster' : 'tasters'}, `}
        <Link href={`/panels/${panel.id}/result`} prefetch={false}>
          {panel.closedAt ? `panel of ${sayDay(panel.closedAt, zone)}` : panel.title}
        </Link>
        {panel.isDemo && <DemoMark />}
      </span>
    </>
  )
}

/** What nobody may read out of two of them. */
export const LIKING_NOTE =
  'Liking is on the scale from 1 to 9, with its 95 % interval, as the panel named beside it said at closing. Compare two only where the panel is the same; whether they differ, its result says.'
