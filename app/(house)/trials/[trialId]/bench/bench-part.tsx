import { readBenchNotes, type BenchNote } from '@/lib/tasks/trial/read-bench-notes'
import { theWorld, type Actor } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { AreaField, TextField } from '@/app/ui/field'
import { Moment } from '@/app/ui/moment'
import { Fold } from '@/app/ui/page-frame'
import { benchNoteAction } from './actions'

interface Props {
  readonly member: Actor
  readonly trialId: string
  readonly zone: string
  readonly writes: boolean
}

/** The makers' own notes of a trial, in a fold of their own. */
export async function BenchPart({ member, trialId, zone, writes }: Props) {
  const notes = await readBenchNotes(theWorld(), member, trialId)
  if (notes === 'is-tasting')
    return (
      <Fold words="Bench notes">
        <p>You have a seat in an open panel that pours this trial: its bench notes open when the panel is closed.</p>
      </Fold>
    )
  return (
    <Fold words={`Bench notes, not blind${notes.length > 0 ? `: ${notes.length}` : ''}`}>
      <div className="grid max-w-prose gap-4">
        <p className="text-soft">
          What its makers tasted, knowing what it was. This is no evidence: it counts in no result and stands on no
          taster’s phone.
        </p>
        {notes.length > 0 && (
          <ol className="grid gap-3">
            {notes.map((note) => (
              <BenchLine key={note.id} note={note} zone={zone} />
            ))}
          </ol>
        )}
        {writes && <BenchForm trialId={trialId} count={notes.length} />}
      </div>
    </Fold>
  )
}

function BenchLine({ note, zone }: { note: BenchNote; zone: string }) {
  const said = [
    ['sweet', note.sweet],
    ['strong', note.strong],
    ['body', note.body],
  ] as const
  const numbers = said.flatMap(([word, value]) => (value === null ? [] : [`${word} ${value}`]))
  return (
    <li>
      {numbers.length > 0 && <p className="font-semibold">{numbers.join(', ')} of 100</p>}
      {note.text && <p className="whitespace-pre-line">{note.text}</p>}
      <p className="text-s text-soft">
        {note.by}, <Moment at={note.at} zone={zone} />
        {note.minutes !== null && `, ${note.minutes} min after pouring`}
      </p>
    </li>
  )
}

function BenchForm({ trialId, count }: { trialId: string; count: number }) {
  const number = { inputMode: 'numeric' } as const
  return (
    <ActForm
      key={count}
      id="bench-note"
      action={benchNoteAction.bind(null, trialId)}
      keep={`bench-note-${trialId}`}
      submit="Add the bench note"
      submitLook="plain"
    >
      <div className="grid gap-4 sm:grid-cols-2">
        <TextField
          name="sweet"
          label="Sweet"
          unit="of 100"
          {...number}
          help="0 not at all; leave out what you did not look for."
        />
        <TextField name="strong" label="Strong" unit="of 100" {...number} />
        <TextField name="body" label="Body" unit="of 100" {...number} />
        <TextField name="minutes" label="After pouring" unit="min" {...number} />
      </div>
      <AreaField name="text" label="In words" />
    </ActForm>
  )
}
