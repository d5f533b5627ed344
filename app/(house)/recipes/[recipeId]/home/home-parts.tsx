import Link from 'next/link'
import type { readHomeSheets } from '@/lib/tasks/home/read-home-sheets'
import { ActForm } from '@/app/ui/act-form'
import { AreaField, SelectField } from '@/app/ui/field'
import { sayDay } from '@/app/ui/moment'
import { Notice } from '@/app/ui/notice'
import { Empty, Section } from '@/app/ui/page-frame'
import { makeHomeSheetAction, pasteHomeAnswerAction } from './actions'

type Found = NonNullable<Awaited<ReturnType<typeof readHomeSheets>>>

function MakePart({
  recipeId,
  trials,
  houseTrialId,
}: {
  recipeId: string
  trials: Found['trials']
  houseTrialId: string | null
}) {
  const words = ({ id, number, name, draft }: Found['trials'][number]) =>
    `${number}. ${name}${id === houseTrialId ? ' (house recipe)' : draft ? ' (draft, not tasted)' : ''}`
  return (
    <ActForm
      id="make-home-sheet"
      action={makeHomeSheetAction.bind(null, recipeId)}
      defaults={{ trialId: houseTrialId ?? trials[0]?.id ?? '' }}
      submit="Make a sheet"
      submitLook="plain"
      refused="Not made"
      className="max-w-md"
    >
      <SelectField
        name="trialId"
        label="Of which trial?"
        choices={trials.map((trial) => ({ value: trial.id, words: words(trial) }))}
        help="Amounts, steps, house syrups with their inputs, cautions: no prices, no suppliers, nothing of panels. It is kept as it stands today."
      />
    </ActForm>
  )
}

function PastePart({ recipeId }: { recipeId: string }) {
  return (
    <ActForm
      id="paste-home-answer"
      action={pasteHomeAnswerAction.bind(null, recipeId)}
      submit="Take it in"
      submitLook="plain"
      refused="Not taken in"
      className="max-w-prose"
    >
      <AreaField
        name="pasted"
        label="The text that came"
        rows={8}
        help="All of it, from “== Answer from home” to the line “== End”. What stands around it does no harm."
      />
    </ActForm>
  )
}

export function SheetList({ sheets, here, zone }: { sheets: Found['sheets']; here: string; zone: string }) {
  if (sheets.length === 0)
    return <Empty words="No sheet yet. A sheet says how to make the drink at home, and asks how it was." />
  return (
    <ul className="divide-y divide-line">
      {sheets.map((sheet) => (
        <li key={sheet.id} className="flex flex-wrap items-baseline justify-between gap-x-4 py-2">
          <Link href={`${here}/${sheet.id}`} prefetch={false} className="inline-block py-1">
            Sheet {sheet.version}, {sheet.trial.number}. {sheet.trial.name}
          </Link>
          <span className="text-s text-soft">
            {sayDay(sheet.createdAt, zone)}, by {sheet.by};{' '}
            {sheet.answers === 1 ? '1 answer' : `${sheet.answers} answers`}
            {sheet.hasLink && '; has a link'}
            {sheet.withdrawnAt && `; withdrawn ${sayDay(sheet.withdrawnAt, zone)}`}
          </span>
        </li>
      ))}
    </ul>
  )
}

/** @param taken  what became of the answer that was just sent */
export function HomeNotices({
  hearsBack,
  taken,
  owner,
}: {
  hearsBack: boolean
  taken: string | undefined
  owner: boolean
}) {
  return (
    <>
      {!hearsBack && (
        <Notice>
          The café gives out no sheets for home. Its owner can switch that on,{' '}
          {owner ? <Link href="/team">on the team page</Link> : 'on the team page'}.
        </Notice>
      )}
      {taken === 'new' && (
        <Notice word="Taken in" live>
          The answer stands below.
        </Notice>
      )}
      {taken === 'known' && <Notice live>This answer was taken in before; nothing was added.</Notice>}
    </>
  )
}

/** For whoever writes recipes, while sheets are given out. */
export function WorkParts({ found: { recipe, trials, houseTrialId } }: { found: Found }) {
  return (
    <>
      <Section title="Paste an answer">
        <PastePart recipeId={recipe.id} />
      </Section>
      {trials.length > 0 && (
        <Section title="Make a sheet">
          <MakePart recipeId={recipe.id} trials={trials} houseTrialId={houseTrialId} />
        </Section>
      )}
    </>
  )
}
