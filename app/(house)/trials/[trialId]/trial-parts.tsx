import Link from 'next/link'
import { plain } from '@/lib/base/number-format'
import type { TrialSheet } from '@/lib/tasks/trial/read-trial'
import { ActForm } from '@/app/ui/act-form'
import { AllergenTable } from '@/app/ui/allergen-table'
import { FigureGroups, figureCount } from '@/app/ui/build-figures'
import { ChangeTable } from '@/app/ui/change-table'
import { AreaField } from '@/app/ui/field'
import { Moment } from '@/app/ui/moment'
import { Notice } from '@/app/ui/notice'
import { Fold } from '@/app/ui/page-frame'
import { noteAction } from '../actions'

interface Props {
  readonly sheet: TrialSheet
  readonly zone: string
  readonly currency: string
  readonly writes: boolean
}

/** All that one may want to look up; what folds says what is in it. */
export function TrialFolds({ sheet, zone, currency, writes }: Props) {
  const { trial, figures, parent, notes, build } = sheet
  const iced = build.lines.some(({ form }) => form === 'ice')
  return (
    <div className="print-open grid gap-2">
      {parent && (
        <Fold words={`What changed from trial ${parent.with.number}`}>
          {parent.warning && <Notice look="caution">{parent.warning}</Notice>}
          <ChangeTable comparison={parent} after={trial.name} />
        </Fold>
      )}
      {trial.steps.length > 0 && (
        <Fold words={`How it is made (${counted(trial.steps.length, 'step')})`}>
          <Steps steps={trial.steps} />
        </Fold>
      )}
      <Fold words={`Allergens, by whose label (${figures.allergens.list})`}>
        <AllergenTable allergens={figures.allergens} />
      </Fold>
      <Fold words={`All figures with their formulas (${figureCount(figures, iced)})`}>
        <FigureGroups figures={figures} currency={currency} vessel={trial.vessel?.name ?? null} iced={iced} />
      </Fold>
      <Weighings sheet={sheet} zone={zone} />
      {(writes || notes.length > 0) && (
        <Fold
          words={notes.length === 0 ? 'Notes: none yet' : `Notes (${notes.length}), added, never rewritten`}
          // a draft may say here what it stands in for, and that nobody tasted it
          open={notes.length > 0 && trial.frozenAt === null}
        >
          <Notes notes={notes} trialId={trial.id} zone={zone} writes={writes} />
        </Fold>
      )}
    </div>
  )
}

const counted = (count: number, what: string) => `${count} ${what}${count === 1 ? '' : 's'}`

function Steps({
  steps,
}: {
  steps: readonly { readonly id: string; readonly text: string; readonly seconds: number | null }[]
}) {
  return (
    <ol className="list-decimal space-y-1 ps-6">
      {steps.map((step) => (
        <li key={step.id}>
          {step.text}
          {step.seconds !== null && <span className="text-soft"> ({saySeconds(step.seconds)})</span>}
        </li>
      ))}
    </ol>
  )
}

function saySeconds(seconds: number): string {
  if (seconds < 120) return `${seconds} s`
  return seconds < 7200 ? `${Math.round(seconds / 60)} min` : `${Math.round(seconds / 3600)} h`
}

function Notes({
  notes,
  trialId,
  zone,
  writes,
}: {
  notes: TrialSheet['notes']
  trialId: string
  zone: string
  writes: boolean
}) {
  return (
    <div className="grid max-w-prose gap-4">
      <ol className="grid gap-3">
        {notes.map((note) => (
          <li key={note.id}>
            <p className="whitespace-pre-line">{note.text}</p>
            <p className="text-s text-soft">
              {note.by}, <Moment at={note.at} zone={zone} />
            </p>
          </li>
        ))}
      </ol>
      {writes && (
        <ActForm
          key={notes.length}
          id="note"
          action={noteAction.bind(null, trialId)}
          keep={`note-${trialId}`}
          submit="Add the note"
          submitLook="plain"
        >
          <AreaField name="text" label="A note" help="What you saw, smelled, changed. It stays as written." />
        </ActForm>
      )}
    </div>
  )
}

/** What was read off the scale, each time somebody built it: how well it repeats stands on a page of its own. */
function Weighings({ sheet, zone }: { sheet: TrialSheet; zone: string }) {
  if (sheet.weighings.length === 0) return null
  return (
    <Fold words={`What the scale showed, each time it was built (${sheet.weighings.length})`}>
      <p className="mb-3">
        <Link href={`/trials/${sheet.trial.id}/built`} prefetch={false}>
          Who built it, how near, and how well it repeats
        </Link>
      </p>
      <ul className="grid gap-2">
        {sheet.weighings.map((one) => (
          <li key={one.id}>
            <Moment at={one.at} zone={zone} />, {one.glasses} {one.glasses === 1 ? 'glass' : 'glasses'}:{' '}
            {one.weights
              .map(
                ({ position, grams }) =>
                  `${sheet.build.lines[position - 1]?.name ?? `step ${position}`} ${plain(grams, 1)} g`,
              )
              .join(', ')}
          </li>
        ))}
      </ul>
    </Fold>
  )
}
