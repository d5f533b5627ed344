import type { SkipReason } from '@/lib/forms/score-form'
import type { PanelResult } from '@/lib/tasks/result/read-result'
import { fixed } from '@/lib/base/number-format'
import { CupName } from '@/app/ui/cup-mark'
import { Moment } from '@/app/ui/moment'
import { Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'

/** Further questions of liking and strength: looked at after the planned comparison, so they suggest rather than show. */
export function Aspects({ result }: { result: PanelResult }) {
  if (result.aspects.length === 0) return null
  return (
    <Section title="Further questions" aside="They suggest; the planned comparison is the liking above">
      <div className="grid gap-6">
        {result.aspects.map(({ attributeId, name, kind, answer, why }) => (
          <div key={attributeId}>
            <h3 className="mb-1">
              {name}
              {kind === 'intensity-100' && <span className="font-normal text-soft">, how strong, 0 to 100</span>}
            </h3>
            {answer ? (
              <ScrollTable label={name} heads={['Cup', 'Tasters', 'Mean', '95 % interval', 'Group']}>
                {[...answer.cups]
                  .sort((a, b) => b.estimate - a.estimate)
                  .map((row) => {
                    const cup = result.cups.find((one) => one.letter === row.cup)
                    return [
                      row.cup,
                      cup ? <CupName key="name" {...cup} /> : row.cup,
                      row.n,
                      fixed(row.estimate, 2),
                      row.robust.interval
                        ? `${fixed(row.robust.interval[0], 2)} to ${fixed(row.robust.interval[1], 2)}`
                        : 'none',
                      answer.groups?.[row.cup] ?? '',
                    ]
                  })}
              </ScrollTable>
            ) : (
              <p className="text-soft">{why ?? 'Nobody scored it.'}</p>
            )}
            {answer && <p className="text-s text-soft">{sayGroups(answer)}</p>}
          </div>
        ))}
      </div>
    </Section>
  )
}

/** What the letters mean, or that there was nothing to tell apart. */
function sayGroups({ cups, groups }: NonNullable<PanelResult['aspects'][number]['answer']>): string {
  const [first] = cups
  if (first && cups.every(({ mean, sd }) => mean === first.mean && (sd ?? 0) === 0))
    return `Every score is ${fixed(first.mean, 0)}: nothing varied, and nothing can be told apart.`
  return groups ? 'Cups that share a letter under “Group” are not told apart.' : ''
}

export function Comments({ result }: { result: PanelResult }) {
  if (result.comments.length === 0) return <p className="text-soft">Nobody left a comment.</p>
  return (
    <div className="grid gap-5">
      {result.cups.map((cup) => {
        const said = result.comments.filter((comment) => comment.letter === cup.letter)
        if (said.length === 0) return null
        return (
          <div key={cup.letter}>
            <h3 className="mb-1">
              <CupName {...cup} />
            </h3>
            <ul className="grid gap-1 ps-7">
              {said.map((comment) => (
                <li key={comment.seat + comment.text} className="max-w-prose">
                  “{comment.text}”{' '}
                  <span className="text-s text-soft">
                    seat {comment.seat}
                    {comment.apart && ', set apart'}
                    {comment.aside && ', set aside'}
                  </span>
                </li>
              ))}
            </ul>
          </div>
        )
      })}
    </div>
  )
}

const skipWords: Readonly<Record<SkipReason, string>> = {
  'not-for-me': 'not for them (allergy, diet or health)',
  'spilt-or-missing': 'spilt or missing',
  'tastes-spoiled': 'tasted or smelled spoiled',
  'rather-not': 'rather not',
}
export const saySkip: Readonly<Record<string, string | undefined>> = skipWords

const seats = (numbers: readonly number[]) => `${numbers.length === 1 ? 'seat' : 'seats'} ${numbers.join(', ')}`

/** What was given blind counts; what was given after the list was opened is kept and left out of every number. */
function sayApart(counted: number, apart: number, isLiking: boolean): string {
  if (!isLiking)
    return apart > 0
      ? 'Its answer came after that: set apart and in no number.'
      : 'Its answer came before that, if there is one.'
  const cups = (n: number, one: string, many: string) => (n === 1 ? `1 cup ${one}` : `${n} cups ${many}`)
  const before = cups(counted, 'scored before that counts', 'scored before that count')
  const after = cups(apart, 'scored after it is set apart', 'scored after it are set apart')
  return apart === 0 ? `${before}.` : `${before}; ${after} and in no number.`
}

const sayScores = (n: number) => (n === 1 ? '1 score stands on a cup' : `${n} scores stand on cups`)

/** Scores on cups that may never have been there: marked, and counted all the same. */
function Unpoured({ missing: { unpoured }, kind }: Pick<PanelResult, 'missing' | 'kind'>) {
  const isLiking = kind === 'liking'
  if (unpoured === null)
    return (
      <p className="max-w-prose text-soft">
        Nobody ticked a cup as poured on the serving list, so it cannot be told whether{' '}
        {isLiking ? 'a score' : 'an answer'} stands on a cup that was never poured.
      </p>
    )
  if (unpoured.length === 0) return null
  const cups = unpoured.map(({ seat, letter }) => `seat ${seat}, cup ${letter}`)
  return (
    <p className="max-w-prose">
      {isLiking ? sayScores(unpoured.length) : 'An answer is about cups'} that nobody ticked as poured and whose code no
      phone confirmed: {cups.join('; ')}. Counted all the same; a seat can be set aside.
    </p>
  )
}

/** @param left  those of them whose answers are in no number */
function sayRepeats(repeats: readonly number[], left: readonly number[]): string {
  const counted = repeats.filter((seat) => !left.includes(seat))
  return [
    `Likely the same taster again: ${seats(repeats)}.`,
    ...(left.length > 0 ? [`In no number: ${seats(left)}.`] : []),
    ...(counted.length > 0 ? ['Counted all the same' + (left.length > 0 ? `: ${seats(counted)}.` : '.')] : []),
  ].join(' ')
}

/** Where each seat has one set, a seat; otherwise a set. */
function saySets(n: number, each: number): string {
  if (each > 1) return n === 1 ? 'set was poured and got' : 'sets were poured and got'
  return n === 1 ? 'seat was taken and gave' : 'seats were taken and gave'
}

export function MissingLines({ result, zone }: { result: PanelResult; zone: string }) {
  const { missing } = result
  const isLiking = result.kind === 'liking'
  const lines = [
    missing.notTaken.length > 0 && `Never taken: ${seats(missing.notTaken)} of ${missing.seats}.`,
    missing.left.length > 0 && `Left before the end: ${seats(missing.left)}.`,
    missing.unscored > 0 &&
      (isLiking
        ? `${missing.unscored} ${missing.unscored === 1 ? 'cup was' : 'cups were'} poured and not scored.`
        : `${missing.unscored} ${saySets(missing.unscored, result.difference?.each ?? 1)} no answer.`),
    missing.repeats.length > 0 &&
      sayRepeats(missing.repeats, (result.choice ?? result.rank ?? result.difference)?.later ?? []),
    ...missing.skipped.map(
      (one) =>
        `Seat ${one.seat} skipped cup${isLiking ? '' : 's'} ${one.letter}: ${saySkip[one.reason] ?? one.reason}.`,
    ),
  ].filter((line): line is string => typeof line === 'string')
  return (
    <div className="grid gap-3">
      {lines.length + missing.late.length + missing.barred.length === 0 && (
        <p>{isLiking ? 'Nothing: every seat scored every cup.' : 'Nothing: every seat answered.'}</p>
      )}
      {lines.length > 0 && (
        <ul className="grid list-disc gap-1 ps-5">
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      <Unpoured missing={missing} kind={result.kind} />
      {missing.barred.length > 0 && (
        <div>
          <h3>Came to know too much</h3>
          <ul className="grid list-disc gap-1 ps-5">
            {missing.barred.map(({ seat, why, at, counted, apart }) => (
              <li key={seat}>
                Seat {seat}: its taster opened {why === 'opened-both-lists' ? 'both lists' : 'the serving list'}, at{' '}
                <Moment at={at} zone={zone} />. {sayApart(counted, apart, isLiking)}
              </li>
            ))}
          </ul>
        </div>
      )}
      {missing.late.length > 0 && (
        <div>
          <h3>Arrived after closing, kept and not counted</h3>
          <ul className="grid list-disc gap-1 ps-5">
            {missing.late.map((one) => (
              <li key={`${one.seat}${one.letter}${one.at.toISOString()}`}>
                Seat {one.seat}, cup{isLiking ? '' : 's'} {one.letter}: {one.value}, at{' '}
                <Moment at={one.at} zone={zone} />
              </li>
            ))}
          </ul>
        </div>
      )}
    </div>
  )
}
