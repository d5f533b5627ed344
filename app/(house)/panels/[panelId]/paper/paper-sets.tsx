import { HiddenField, SelectField } from '@/app/ui/field'
import { Section } from '@/app/ui/page-frame'
import type { PaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { listed } from '../../panel-words'
import { orderAsTyped, PaperOrder } from './paper-order'
import { SKIPS } from './skips'

const spelled = (code: string) => code.split('').join('\u00a0')

const open = ({ sets }: PaperSeat) => sets.filter(({ phone }) => !phone)

/** Cups that are answered together: one answer about them all, by code. */
export function PaperSets({ seat }: { seat: PaperSeat }) {
  const ask = seat.asks[0]
  const none = ask?.kind === 'choose' && ask.none ? [{ value: 'none', words: 'No preference' }] : []
  return (
    <>
      {open(seat).map(({ number, codes, offers }, at) => (
        <Section key={number} title={`Cups ${listed(codes.map(spelled))}`}>
          <HiddenField name={`sets[${at}].number`} value={String(number)} />
          <div className="grid gap-4 sm:grid-cols-2">
            {ask?.kind === 'rank' ? (
              <PaperOrder name={`sets[${at}].order`} codes={codes} />
            ) : (
              <SelectField
                name={`sets[${at}].answer`}
                label={seat.attributes[0] ?? ''}
                none="left blank"
                choices={[
                  ...offers.map((some) => ({ value: some.join(' '), words: listed(some.map(spelled)) })),
                  ...none,
                ]}
              />
            )}
            <SelectField
              name={`sets[${at}].skip`}
              label="Or not answered because"
              none="it was answered"
              choices={SKIPS}
            />
          </div>
        </Section>
      ))}
      {seat.sets
        .filter(({ phone }) => phone)
        .map(({ number, codes }) => (
          <Section key={number} title={`Cups ${listed(codes.map(spelled))}`}>
            <p className="max-w-prose">Answered on the phone. It stands as it is; nobody reads it before closing.</p>
          </Section>
        ))}
    </>
  )
}

export function setsAsTyped(seat: PaperSeat) {
  if (seat.asks[0]?.kind === 'rank')
    return open(seat).map(({ codes, answer, skip }) => ({ order: orderAsTyped(codes, answer), skip: skip ?? '' }))
  return open(seat).map(({ answer, skip }) => ({
    answer: answer === null ? '' : answer.length === 0 ? 'none' : answer.join(' '),
    skip: skip ?? '',
  }))
}
