import { plain } from '@/lib/base/number-format'
import type { TrialSheet } from '@/lib/tasks/trial/read-trial'
import { isToldByFigures } from '@/lib/tasks/trial/stand-ins'
import { ActForm } from '@/app/ui/act-form'
import { Button } from '@/app/ui/button'
import { AreaField } from '@/app/ui/field'
import { LineTable } from '@/app/ui/line-table'
import { Moment } from '@/app/ui/moment'
import { Fold, Section } from '@/app/ui/page-frame'
import { sayLevel } from '@/app/ui/say-level'
import { noteAction } from '../actions'

/** What goes in, at which level it was made, and how; each line leads to what could stand in for it, where figures can tell. */
export function Lines({ sheet: { build, figures, trial } }: { sheet: TrialSheet }) {
  const level = sayLevel(build)
  return (
    <>
      {level && <p className="mb-3 font-semibold">{level}</p>}
      <LineTable
        lines={build.lines}
        figures={figures}
        insteadAt={(line) => (isToldByFigures(line) ? `/trials/${trial.id}/instead/${line.key}` : null)}
      />
      <Steps steps={trial.steps} />
    </>
  )
}

function Steps({
  steps,
}: {
  steps: readonly { readonly id: string; readonly text: string; readonly seconds: number | null }[]
}) {
  if (steps.length === 0) return null
  return (
    <ol className="mt-4 list-decimal space-y-1 ps-6">
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

export function Notes({
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

export function CompareForm({ trialId, others }: { trialId: string; others: TrialSheet['others'] }) {
  if (others.length === 0) return null
  return (
    <Section title="Compare with another trial">
      <form action={`/trials/${trialId}/compare`} className="flex flex-wrap items-end gap-3">
        <label className="grid gap-1 font-semibold">
          Other trial
          <select name="with" className="min-h-11 rounded border border-edge bg-raised px-3 font-normal">
            {others.map((other) => (
              <option key={other.id} value={other.id}>
                {other.number}. {other.name}
              </option>
            ))}
          </select>
        </label>
        <Button type="submit" look="plain">
          Compare
        </Button>
      </form>
    </Section>
  )
}

/** What was read off the scale, each time somebody built it: how well it repeats. */
export function Weighings({ sheet, zone }: { sheet: TrialSheet; zone: string }) {
  if (sheet.weighings.length === 0) return null
  return (
    <Fold words="What the scale showed, each time it was built">
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
