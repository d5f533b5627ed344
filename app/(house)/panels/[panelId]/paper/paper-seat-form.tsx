import { ActForm, type Draft } from '@/app/ui/act-form'
import { CheckField, HiddenField, SelectField, TextField } from '@/app/ui/field'
import { Section } from '@/app/ui/page-frame'
import type { PaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { DOOR_TICKS } from '@/app/join/door-words'
import { enterPaperAction } from './actions'
import { PaperAnswer } from './paper-answer'
import { PaperSets, setsAsTyped } from './paper-sets'
import { SKIPS } from './skips'

/** The sheet of one seat: cups by code, as the typist finds them, not as the taster had them. */
export function PaperSeatForm({ panelId, seat }: { panelId: string; seat: PaperSeat }) {
  const cups = seat.cups.filter((cup) => cup.phone !== 'answer')
  const onPhone = seat.cups.filter((cup) => cup.phone === 'answer')
  return (
    <ActForm
      id={`paper-${panelId}-${seat.number}`}
      // A draft belongs to these cups in this state: over others it would put scores at the wrong codes.
      keep={`paper-${panelId}-${seat.number}-${codesOf(seat, cups)}-${seat.was}`}
      action={enterPaperAction.bind(null, panelId)}
      defaults={asTyped(seat, cups)}
      submit="Keep this sheet"
      className="gap-8"
    >
      <HiddenField name="seat" value={String(seat.number)} />
      <HiddenField name="was" value={seat.was} />
      <div className="grid max-w-prose gap-3">
        <NamePart isForgotten={seat.isForgotten} />
        <fieldset>
          <legend className="font-semibold">Ticked on the paper, by whoever tasted</legend>
          <CheckField
            name="unaffected"
            value="yes"
            label={`“${DOOR_TICKS.unaffected}” Of the allergens and cautions.`}
          />
          <CheckField name="consent" value="yes" label={`“${DOOR_TICKS.consent}”`} />
          <CheckField name="unseen" value="yes" label={`“${DOOR_TICKS.unseen}”`} />
        </fieldset>
      </div>
      <PaperSets seat={seat} />
      {cups.map((cup, at) => (
        <Section key={cup.code} title={`Cup ${cup.code.split('').join(' ')}`}>
          <HiddenField name={`cups[${at}].code`} value={cup.code} />
          <div className="grid gap-4 sm:grid-cols-2 lg:grid-cols-3">
            {seat.attributes.map((attribute, place) => (
              <PaperAnswer key={attribute} seat={seat} cup={at} place={place} />
            ))}
            <SelectField name={`cups[${at}].skip`} label="Or not scored because" none="it was scored" choices={SKIPS} />
            {cup.phone === 'comment' ? (
              <p className="text-s text-soft">
                A comment was written on the phone; it stays and is read after closing.
              </p>
            ) : (
              <TextField name={`cups[${at}].comment`} label="Comment" />
            )}
          </div>
        </Section>
      ))}
      {onPhone.map((cup) => (
        <Section key={cup.code} title={`Cup ${cup.code.split('').join(' ')}`}>
          <p className="max-w-prose">Answered on the phone. It stands as it is; nobody reads it before closing.</p>
        </Section>
      ))}
    </ActForm>
  )
}

const codesOf = ({ sets }: PaperSeat, cups: PaperSeat['cups']) =>
  [...cups.map(({ code }) => code), ...sets.flatMap(({ codes, phone }) => (phone ? [] : codes))].join('')

function NamePart({ isForgotten }: { isForgotten: boolean }) {
  if (!isForgotten) return <TextField name="name" label="Name on the sheet" />
  return (
    <p>
      <HiddenField name="name" value="taken out" />
      The name was taken out, and is not asked again.
    </p>
  )
}

const wordsOf = ({ asks }: PaperSeat, place: number) => {
  const ask = asks[place]
  return ask?.kind === 'words' ? ask.words : null
}

function ticksOf(words: ReturnType<typeof wordsOf>, value: number | null): string[] {
  if (!words || value === null) return []
  return words.flatMap(({ place }) => (((value >> place) & 1) === 1 ? [String(place)] : []))
}

function asTyped(seat: PaperSeat, cups: PaperSeat['cups']): Draft {
  const ticked = seat.name === null && !seat.isForgotten ? '' : 'yes'
  return {
    name: seat.name ?? '',
    unaffected: ticked,
    consent: ticked,
    unseen: ticked,
    sets: setsAsTyped(seat),
    cups: cups.map(({ answers, skip, comment }) => ({
      answers: answers.map((value, place) => (value === null || wordsOf(seat, place) ? '' : String(value))),
      ticks: answers.map((value, place) => ({ words: ticksOf(wordsOf(seat, place), value) })),
      skip: skip ?? '',
      comment: comment ?? '',
    })),
  }
}
