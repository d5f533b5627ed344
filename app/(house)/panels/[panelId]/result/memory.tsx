import Link from 'next/link'
import type { PairMemory } from '@/lib/tasks/result/read-memory'
import { fixed } from '@/lib/base/number-format'
import { CupName } from '@/app/ui/cup-mark'
import { sayDay } from '@/app/ui/moment'
import { Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'

/** What every panel that poured the same two trials found, each for itself and all together. */
export function MemorySection({ pairs, zone, here }: { pairs: readonly PairMemory[]; zone: string; here: string }) {
  if (pairs.length === 0) return null
  return (
    <Section title="The same two in every panel" aside="To look at: no claim is made of several panels together">
      <div className="grid gap-6">
        {pairs.map((pair) => (
          <Pair key={pair.first.letter + pair.second.letter} pair={pair} zone={zone} here={here} />
        ))}
        <p className="text-s text-soft">
          Tasters may be the same people in several panels, and then the panels together know less than it seems.
        </p>
      </div>
    </Section>
  )
}

function Pair({ pair, zone, here }: { pair: PairMemory; zone: string; here: string }) {
  const { first, second, held, together, tries, falseClaim } = pair
  return (
    <div className="grid gap-2">
      <h3 className="font-semibold">
        <CupName {...first} /> less <CupName {...second} />
      </h3>
      <ScrollTable
        label={`Trial ${first.trialNumber} less trial ${second.trialNumber}, panel by panel`}
        heads={['Panel', 'Closed', 'Scored both', 'Difference', '95 %, alone']}
      >
        {held.map((one) => [
          one.id,
          <Link key="title" href={`/panels/${one.id}/result`} prefetch={false}>
            {one.title}
            {one.id === here && ' (this one)'}
          </Link>,
          one.closedAt ? sayDay(one.closedAt, zone) : 'not known',
          one.tasters,
          fixed(one.difference, 2),
          `${fixed(one.interval[0], 2)} to ${fixed(one.interval[1], 2)}`,
        ])}
      </ScrollTable>
      {together && (
        <p>
          Together: {fixed(together.difference, 2)} points, {fixed(together.interval[0], 2)} to{' '}
          {fixed(together.interval[1], 2)} (95&nbsp;%, after Hartung and Knapp).
          {together.next && (
            <>
              {' '}
              With a chance of 95&nbsp;% a further panel would find a difference from {fixed(
                together.next[0],
                2,
              )} to {fixed(together.next[1], 2)}.
            </>
          )}
        </p>
      )}
      <p className="text-s text-soft">
        {tries > held.length && `${tries} panels poured both; the newest that give an interval are shown. `}
        If the two were alike, the chance that one of {tries} panels claims a difference all the same is up to{' '}
        {fixed(100 * falseClaim, 0)} %.
      </p>
    </div>
  )
}
