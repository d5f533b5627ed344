import type { Bar, BarPreparation, DueBatch } from '@/lib/tasks/bar/read-bar'
import { ActButton } from '@/app/ui/act-button'
import { ButtonLink } from '@/app/ui/button'
import { sayMoment } from '@/app/ui/moment'
import { askDate } from '@/app/ui/past-batches'
import { throwAwayAction } from './actions'

const list = 'divide-y divide-line rounded border border-line bg-raised'
const row = 'flex flex-wrap items-center justify-between gap-x-6 gap-y-2 px-4 py-3'

/** What cannot wait, in one sentence. */
export function sayBar({ due, packs, preparations }: Bar): string {
  const past = due.filter(({ isPast }) => isPast).length
  if (past > 0) return past === 1 ? 'A batch is past its date.' : `${past} batches are past their date.`
  const pastPacks = packs.filter(({ isPast }) => isPast).length
  if (pastPacks > 0)
    return pastPacks === 1 ? 'An opened pack is past its time.' : `${pastPacks} opened packs are past their time.`
  const empty = preparations.filter(({ pour }) => pour === null)
  const [first] = empty
  if (first)
    return empty.length === 1 ? `Make ${first.name}: none is in date.` : `${empty.length} batches are to be made.`
  if (due.length + packs.length > 0) return 'Something goes today.'
  const [undated] = preparations.flatMap(({ name, pour }) =>
    pour?.discardAt === null ? [`${name}, batch ${pour.number}`] : [],
  )
  return undated === undefined
    ? 'Nothing is due today.'
    : `Nothing is known to be due today; ask about ${undated}: its date is not known.`
}

export function BarRecipes({ recipes }: Pick<Bar, 'recipes'>) {
  return (
    <ul className={list}>
      {recipes.map(({ recipe, version }) => (
        <li key={recipe.id} className={row}>
          <div>
            <p className="font-semibold">{recipe.name}</p>
            <p className="text-s text-soft">House recipe {version}</p>
          </div>
          <ButtonLink href={`/bar/${recipe.id}`}>
            Make<span className="sr-only"> {recipe.name}</span>
          </ButtonLink>
        </li>
      ))}
    </ul>
  )
}

export function BarBatches({ preparations, zone }: { preparations: readonly BarPreparation[]; zone: string }) {
  return (
    <ul className={list}>
      {preparations.map(({ id, name, pour }) => (
        <li key={id} className={row}>
          <div>
            <p className="font-semibold">{name}</p>
            {pour ? (
              <p className={pour.discardAt ? 'text-s text-soft' : 'text-s font-semibold text-caution'}>
                Pour batch {pour.number}
                {pour.discardAt
                  ? `, good until ${sayMoment(pour.discardAt, zone)}`
                  : `, its date not known. ${askDate}`}
              </p>
            ) : (
              <p className="text-s font-semibold text-caution">None in date</p>
            )}
          </div>
          <div className="flex flex-wrap gap-2">
            <ButtonLink look={pour ? 'plain' : 'main'} href={`/bar/batches/${id}`}>
              Make a batch<span className="sr-only"> of {name}</span>
            </ButtonLink>
            {pour && (
              <ButtonLink look="plain" href={`/bar/labels/${pour.id}`}>
                Labels
                <span className="sr-only">
                  {' '}
                  for {name}, batch {pour.number}
                </span>
              </ButtonLink>
            )}
          </div>
        </li>
      ))}
    </ul>
  )
}

export function BarDue({ due, zone }: { due: readonly DueBatch[]; zone: string }) {
  return (
    <ul className={list}>
      {due.map(({ id, name, number, discardAt, isPast }) => (
        <li key={id} className={row}>
          <div>
            <p className="font-semibold">
              {name}, batch {number}
            </p>
            <p className={isPast ? 'text-s font-semibold text-stop' : 'text-s text-caution'}>
              {isPast ? 'Past its date: ' : 'Today: '}
              {sayMoment(discardAt, zone)}
            </p>
          </div>
          <ActButton look="plain" words={`Batch ${number} is thrown away`} action={throwAwayAction.bind(null, id)} />
        </li>
      ))}
    </ul>
  )
}
