import { DOOR_TICKS } from '@/app/join/door-words'
import { withToDo } from '@/app/join/cautions-part'
import { sayNameTime } from '@/app/join/say-name-time'
import type { BallotHead, BallotSeat } from '@/lib/tasks/pour/read-ballots'
import { BallotChoice } from './ballot-choice'
import { BallotOdd } from './ballot-odd'
import { BallotOrder } from './ballot-order'
import { BallotQuestion } from './ballot-question'
import { QrCode } from '@/app/ui/qr-code'

interface Props {
  readonly head: BallotHead
  readonly seat: BallotSeat
  /** where the seat goes on by phone; null where no phone reaches the house */
  readonly address: string | null
}

/** The sheet of one seat that answers on paper, to be printed: what the phone's door says, then its cups in their order. */
export function Ballot({ head, seat, address }: Props) {
  const ofSet = seat.asks.find((ask) => ask.kind === 'choose')
  const odd = seat.asks.find((ask) => ask.kind === 'odd')
  const inOrder = seat.asks.some((ask) => ask.kind === 'rank')
  const size = head.sampleMl === null ? '' : `, about ${head.sampleMl} ml each`
  return (
    <article
      aria-label={`Ballot of seat ${seat.number}`}
      className="break-after-page border border-edge bg-raised p-4 text-s last:break-after-auto print:border-0 print:p-0 print:text-[9pt] print:leading-snug"
    >
      <header className="flex items-start justify-between gap-4">
        <div>
          <p>{head.cafe}</p>
          <h2 className="text-l font-bold">
            {head.publicTitle}, seat {seat.number}
          </h2>
          <p className="max-w-prose">
            You taste {seat.codes.length} cups{size}, in the order below, and{' '}
            {odd
              ? 'say whether you can tell them apart'
              : inOrder
                ? 'say in which order you like them'
                : ofSet
                  ? 'say which one you like better'
                  : 'say how you find each'}
            . {odd ? 'Not everybody can, and nobody is being tested.' : 'There is no right answer.'} Taste for yourself:
            no talking about the cups until everybody is done.
          </p>
        </div>
        {address !== null && (
          <QrCode
            text={address}
            label={`Code to scan for seat ${seat.number}, to answer on a phone instead`}
            className="w-24 shrink-0 print:w-[24mm]"
          />
        )}
      </header>
      <Door head={head} />
      <p className="mt-2">
        <strong className="font-semibold">First name or nickname</strong> ______________________________
      </p>
      {odd ? (
        <BallotOdd sets={seat.sets} ask={odd} />
      ) : inOrder ? (
        <BallotOrder codes={seat.codes} />
      ) : ofSet ? (
        <BallotChoice codes={seat.codes} none={ofSet.none} />
      ) : (
        <>
          <Steps scale={head.scale} />
          {seat.codes.map((code, at) => (
            <Cup key={code} place={at + 1} code={code} head={head} seat={seat} />
          ))}
        </>
      )}
    </article>
  )
}

function Door({ head: { cautions, nameDays } }: { head: BallotHead }) {
  return (
    <section className="mt-2">
      <h3 className="font-semibold">Before you taste: is this for you?</h3>
      <p>Over all cups together, allergens by the list “{cautions.list}”:</p>
      <ul className="list-disc ps-5">
        {withToDo(cautions.said).map(({ words, toDo }) => (
          <li key={words}>
            {words} {toDo !== undefined && <strong>{toDo}</strong>}
          </li>
        ))}
      </ul>
      <p>
        Any other allergy, or not sure? Ask who serves before you taste. It is voluntary: you may stop, or spit out, at
        any time, without a reason. Kept: the name you write here and your answers; they are read by the café’s people
        who run this panel. {sayNameTime(nameDays)}
      </p>
      <ul className="mt-1">
        {Object.entries(DOOR_TICKS).map(([name, words]) => (
          <li key={name} className="flex items-center gap-2 py-0.5">
            <span className="inline-block size-4 shrink-0 border border-ink" aria-hidden="true" />
            {words}
          </li>
        ))}
      </ul>
      <p>
        Without all three ticks nothing of this sheet counts. If one does not hold, stop here and hand it back: nobody
        asks why.
      </p>
    </section>
  )
}

function Steps({ scale }: { scale: readonly string[] }) {
  return (
    <p className="mt-2">
      <strong className="font-semibold">Numbers from 1 to 9: circle one in each row.</strong>{' '}
      {scale.map((words, at) => `${at + 1} ${words}`).join(', ')}.
    </p>
  )
}

/**
 * A cup stays whole where a page holds it, so a page breaks between cups; the head says seat and code, and stands again on the
 * next page where a cup is longer than one. A code is underlined: turned round, 869 reads as another.
 */
function Cup({ place, code, head, seat }: { place: number; code: string; head: BallotHead; seat: BallotSeat }) {
  return (
    <table className="mt-2 w-full break-inside-avoid border-t border-edge">
      <thead className="break-inside-avoid">
        <tr>
          <th scope="col" colSpan={head.scale.length + 1} className="pt-2 text-start font-normal">
            <h3>
              <span className="font-normal">Seat {seat.number}, cup</span> {place}:{' '}
              <strong className="text-l font-bold tracking-widest underline underline-offset-4">{code}</strong>
            </h3>
          </th>
        </tr>
      </thead>
      <tbody>
        {head.questions.map((question, at) => (
          <BallotQuestion key={question} name={question} ask={seat.asks[at] ?? { kind: 'liking' }} scale={head.scale} />
        ))}
        <tr className="break-inside-avoid">
          <td colSpan={head.scale.length + 1}>
            <span className="flex gap-2">
              <span>Comment, or why you leave it out</span>
              <span className="grow border-b border-edge" />
            </span>
          </td>
        </tr>
      </tbody>
    </table>
  )
}
