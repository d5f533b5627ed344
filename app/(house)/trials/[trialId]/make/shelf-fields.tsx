import { plain } from '@/lib/base/number-format'
import type { OnShelf } from '@/lib/tasks/bar/on-shelf'
import { AskedNumber } from '@/app/ui/asked-number'
import { Fold } from '@/app/ui/page-frame'

/** What is on the shelf: batches in sight, what is bought in a fold, open where something stands in it. */
export function ShelfFields({ onShelf }: { onShelf: readonly OnShelf[] }) {
  const bought = onShelf.filter(({ kind }) => kind === 'ingredient')
  return (
    <>
      {onShelf
        .filter(({ kind }) => kind === 'batch')
        .map((one) => (
          <ShelfField key={one.field} {...one} />
        ))}
      {bought.length > 0 && (
        <Fold
          words="What is bought, on the shelf"
          open={bought.some(({ typed, problem }) => typed !== '' || problem !== undefined)}
        >
          <div className="grid gap-4">
            {bought.map((one) => (
              <ShelfField key={one.field} {...one} />
            ))}
          </div>
        </Fold>
      )}
    </>
  )
}

function ShelfField({ field, name, number, typed, problem, counted }: OnShelf) {
  return (
    <AskedNumber
      name={field}
      label={`${name}${number === null ? '' : `, batch ${number}`}, on the shelf`}
      unit="g"
      typed={typed}
      problem={problem}
      hint={counted ? sayCounted(counted) : undefined}
    />
  )
}

/** "1 200 g, counted 3 days ago": glasses were made since, so a count of another day is told and not used. */
function sayCounted({ grams, nights }: NonNullable<OnShelf['counted']>): string {
  const when = nights <= 0 ? 'today' : nights === 1 ? 'yesterday' : `${nights} days ago`
  return `${plain(grams, 1)} g, counted ${when}${nights > 0 ? ': count again, it is not used' : ''}.`
}
