import type { ResultGlass } from '@/lib/tasks/result/read-result-glasses'
import { CupName } from './cup-mark'
import { Notice } from './notice'
import { sayBatch } from './say-batch'

interface Cup {
  readonly letter: string
  readonly name: string
  readonly trialId: string
  readonly isHouse: boolean
}

/** Which batch of each preparation went into which cup, and where two cups did not get the same. */
export function BatchesPoured({ cups, glasses }: { cups: readonly Cup[]; glasses: readonly ResultGlass[] }) {
  const poured = cups.map((cup) => ({
    cup,
    batches: glasses.find(({ trialId }) => trialId === cup.trialId)?.batches ?? [],
  }))
  if (poured.every(({ batches }) => batches.length === 0)) return null
  const apart = apartIn(poured.flatMap(({ batches }) => batches))
  return (
    <div className="mt-4 grid gap-2">
      <h3>Batches poured</h3>
      <ul className="grid gap-1">
        {poured.map(({ cup, batches }) => (
          <li key={cup.letter} className="flex flex-wrap items-baseline gap-x-2">
            <CupName {...cup} />
            <span>
              {batches.length === 0 ? 'with no preparation of the house' : `from ${batches.map(sayBatch).join('; ')}`}
            </span>
          </li>
        ))}
      </ul>
      {apart.length > 0 && (
        <Notice look="caution" word="Not the same batch in every cup">
          {`${apart.join(' and ')}: what differs between batches was tasted too.`}
        </Notice>
      )}
    </div>
  )
}

/** Preparations of which cups got more than one batch. */
function apartIn(batches: ResultGlass['batches']): readonly string[] {
  const found = new Map<string, Set<number | null>>()
  for (const { name, batch } of batches) found.set(name, (found.get(name) ?? new Set()).add(batch))
  return [...found].flatMap(([name, numbers]) => (numbers.size > 1 ? [name] : []))
}
