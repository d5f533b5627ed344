import Link from 'next/link'
import type { ChangedIngredient, TouchedGlass } from '@/lib/tasks/recipe/read-changes'
import { plain } from '@/lib/base/number-format'
import { Button } from '@/app/ui/button'
import { Moment } from '@/app/ui/moment'
import { localRules, Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { lookedAtAction } from './actions'
import { alcoholIn, sayChange, sayGraver, sayMove } from './say-change'

interface Cafe {
  readonly currency: string
  readonly allergenList: string
  readonly timeZone: string
}

/** One ingredient: what is new and dangerous, what changed, what it does to each glass, and that it was looked at. */
export function ChangedPart({ one, cafe, writes }: { one: ChangedIngredient; cafe: Cafe; writes: boolean }) {
  return (
    <Section
      title={one.name}
      aside={
        <Link href={`/store/ingredients/${one.id}`} prefetch={false} className="inline-block py-1">
          Label and prices
        </Link>
      }
    >
      <div className="grid grid-cols-[minmax(0,1fr)] gap-3">
        <Warnings one={one} />
        <ul className="list-disc ps-5">
          {one.changes.map(({ id, at, by, said }) => (
            <li key={id}>
              {sayChange(said, cafe).join(' ')}{' '}
              <span className="text-s text-soft">
                {by}, <Moment at={at} zone={cafe.timeZone} />
              </span>
            </li>
          ))}
        </ul>
        <Glasses one={one} currency={cafe.currency} />
        {writes && <LookedForm one={one} />}
      </div>
    </Section>
  )
}

function Warnings({ one }: { one: ChangedIngredient }) {
  const graver = sayGraver(one)
  const alcohol = alcoholIn(one)
  return (
    <>
      {graver.length > 0 && (
        <Notice look="stop" word="New allergens">
          {graver.map(({ recipe, words }) => `${recipe}: ${words}`).join('. ')}. Tell whoever serves it before the next
          glass. {localRules}
        </Notice>
      )}
      {alcohol !== null && one.glasses.length > 0 && (
        <Notice look="stop" word="Alcohol">
          Its label states {plain(alcohol)} % by volume, and nobody had said so before. Tell whoever serves it before
          the next glass. {localRules}
        </Notice>
      )}
      {one.unread && (
        <Notice look="caution" word="Label not read">
          Nobody has read this label as it is now: nothing made with it may be called free from anything, and no panel
          opens with it.
        </Notice>
      )}
    </>
  )
}

const standings: Readonly<Record<TouchedGlass['standing'], string>> = {
  house: 'house recipe',
  draft: 'draft',
  frozen: 'poured before',
}

function Glasses({ one, currency }: { one: ChangedIngredient; currency: string }) {
  if (one.glasses.length === 0) return <p className="text-soft">It is in no glass of a recipe in use.</p>
  return (
    <>
      <ScrollTable label={`Glasses with ${one.name}`} heads={['Glass', 'Cost', 'Left of each glass', 'Taste again']}>
        {one.glasses.map((glass) => [
          glass.trial.id,
          <span key="glass" className="block w-36 whitespace-normal sm:w-auto">
            <Link href={`/trials/${glass.trial.id}`} prefetch={false} className="inline-block py-1">
              {glass.recipe.name}, trial {glass.trial.number}
            </Link>{' '}
            <span className="text-s text-soft">{standings[glass.standing]}</span>
          </span>,
          sayMove(glass.cost, currency),
          sayMove(glass.left, currency),
          one.tasteAgain ? <strong key="taste">yes</strong> : 'no',
        ])}
      </ScrollTable>
      <p className="text-s text-soft">
        {one.tasteAgain
          ? 'What is in it, or who makes it, is another: what a panel said of these glasses was said of the old one. '
          : 'Nothing here says that it tastes otherwise. '}
        Today’s prices of all else; frozen trials keep the figures of their day.
        {one.more > 0 && ` ${one.more} more glasses hold it.`}
      </p>
    </>
  )
}

function LookedForm({ one }: { one: ChangedIngredient }) {
  return (
    <form action={lookedAtAction.bind(null, one.id)} className="screen-only">
      <input type="hidden" name="changes" value={one.changes.map(({ id }) => id).join(' ')} />
      <Button type="submit" look="plain">
        Looked at<span className="sr-only">: {one.name}</span>
      </Button>
    </form>
  )
}
