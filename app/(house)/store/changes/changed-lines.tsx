import Link from 'next/link'
import type { ChangedIngredient } from '@/lib/tasks/recipe/read-changes'
import { plain } from '@/lib/base/number-format'
import { Section } from '@/app/ui/page-frame'
import { alcoholIn, sayGraver, sayKinds, sayMove } from './say-change'

/** As many as a page about other things names. */
const shown = 5

/** What changed in the store and nobody has looked at, with what it does to the house recipes. */
export function ChangedLines({ changes, currency }: { changes: readonly ChangedIngredient[]; currency: string }) {
  if (changes.length === 0) return null
  return (
    <Section title="Changed in the store" aside="Until somebody has looked at it">
      <ul className="divide-y divide-line rounded border border-line bg-raised">
        {changes.slice(0, shown).map((one) => (
          <li key={one.id} className="grid gap-1 px-4 py-2">
            <p>
              <Link href="/store/changes" prefetch={false} className="inline-block py-1 font-semibold">
                {one.name}
              </Link>
              : {sayKinds(one)}
            </p>
            {sayGraver(one).map(({ recipe, words }) => (
              <p key={recipe} className="font-semibold text-stop">
                {recipe}: {words}, which it did not before.
              </p>
            ))}
            <Alcohol percent={alcoholIn(one)} />
            {one.unread && one.glasses.length > 0 && (
              <p className="text-caution">Nobody has read its label as it is now.</p>
            )}
            {one.glasses.map((glass) => (
              <p key={glass.trial.id} className="text-s text-soft">
                {glass.standing === 'house'
                  ? `House recipe of ${glass.recipe.name}`
                  : `${glass.recipe.name}, trial ${glass.trial.number}, a draft`}
                : costs {sayMove(glass.cost, currency)}
                {one.tasteAgain && '; to be tasted again'}.
              </p>
            ))}
          </li>
        ))}
      </ul>
      {changes.length > shown && (
        <p className="mt-2">
          <Link href="/store/changes" prefetch={false}>
            All {changes.length}
          </Link>
        </p>
      )}
    </Section>
  )
}

function Alcohol({ percent }: { percent: number | null }) {
  if (percent === null) return null
  return (
    <p className="font-semibold text-stop">
      It holds alcohol, {plain(percent)} % by volume, which nobody had stated before.
    </p>
  )
}
