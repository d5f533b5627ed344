import { SelectField, TextField } from '@/app/ui/field'
import { TicksField } from '@/app/ui/ticks-field'
import type { PaperSeat } from '@/lib/tasks/pour/read-paper-seat'

/** What the sheet says to one question about one cup. */
export function PaperAnswer({ seat, cup, place }: { seat: PaperSeat; cup: number; place: number }) {
  const label = seat.attributes[place] ?? ''
  const name = `cups[${cup}].answers[${place}]`
  const ask = seat.asks[place]
  if (ask?.kind === 'line')
    return (
      <TextField
        name={name}
        label={label}
        inputMode="numeric"
        help={`0 is “${ask.low}”, 100 is “${ask.high}”: measure where the mark is on the line.`}
      />
    )
  if (ask?.kind === 'words')
    return (
      <TicksField
        name={`cups[${cup}].ticks[${place}].words`}
        label={label}
        choices={ask.words.map(({ place: value, word }) => ({ value: String(value), words: word }))}
      />
    )
  const steps = ask?.kind === 'steps' ? ask.steps : seat.scale
  const choices = steps.map((words, at) => ({ value: String(at + 1), words: `${at + 1}  ${words}` })).toReversed()
  return <SelectField name={name} label={label} none="left blank" choices={choices} />
}
