import type { PanelResult } from '@/lib/tasks/result/read-result'
import type { NamelessResult } from '@/lib/tasks/result/read-shared'
import { fixed } from '@/lib/base/number-format'
import { ButtonLink } from '@/app/ui/button'
import { DecisionLines } from '@/app/ui/decision-lines'
import { DemoMark } from '@/app/ui/demo-mark'
import { Notice } from '@/app/ui/notice'
import { sayDay } from '@/app/ui/moment'
import { Section } from '@/app/ui/page-frame'
import { ChoiceMethod } from './choice-part'
import { DifferenceMethod } from './difference-part'
import { RankMethod } from './rank-part'
import { sayMethod } from './say-method'

/** The numbers behind the sentence: each planned comparison, the margin, and what it would take to tell. */
export function VerdictNumbers({ result }: { result: NamelessResult }) {
  const { verdict, needed, seenThrough, why } = result
  return (
    <div className="grid max-w-prose gap-3">
      {why && <Notice look="caution">{why}</Notice>}
      {verdict.numbers.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {verdict.margin.map((line) => (
        <p key={line} className="font-semibold">
          {line}
        </p>
      ))}
      {needed && verdict.told === 'better' && (
        <p className="text-soft">
          With this panel’s spread ({fixed(needed.spread, 2)} points about each taster’s own mean), about{' '}
          {needed.tasters} tasters ({needed.least} to {needed.most}){' '}
          {needed.for === 'margin' ? 'show cups that are alike to be within' : 'find a difference of'}{' '}
          {fixed(needed.difference, 1)} {needed.difference === 1 ? 'point' : 'points'} four times out of five.
        </p>
      )}
      {result.beside.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {result.placeTellsCup && (
        <Notice look="caution" word="Place and cup are one">
          In this panel a trial was always tasted at the same place, and no other was tasted there. What is said of the
          trial may be true of the place: the first cup is often scored differently. No analysis parts the two; test
          again.
        </Notice>
      )}
      {seenThrough && (
        <Notice look="caution" word="Partly blind">
          {seenThrough}
        </Notice>
      )}
    </div>
  )
}

/** Where the sentences come from, and what the same panel says today if that is something else. */
export function HowFound({ result, zone }: { result: NamelessResult; zone: string }) {
  const { found, today } = result
  return (
    <div className="grid max-w-prose gap-3">
      <p className="text-soft">{sayFound(found, zone)}</p>
      {today && (
        <>
          <Notice look="caution" word="Computed today">
            {today.verdict.sentence}
          </Notice>
          <ul className="grid list-disc gap-1 ps-5">
            {today.changed.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      )}
    </div>
  )
}

function sayFound(found: PanelResult['found'], zone: string): string {
  switch (found.how) {
    case 'closing':
      return `This is what was found at closing, on ${sayDay(found.at, zone)}. It stays as it is; tables and plots are computed anew each time.`
    case 'upgrade':
      return `This panel was closed by an earlier version, which kept no sentences. These were computed again on ${sayDay(found.at, zone)}, when the house was brought up to date, and are kept from then on.`
    case 'not-kept':
      return 'Nothing was kept when this panel was closed: what stands here is computed anew each time.'
    case 'unreadable':
      return 'What was kept when this panel was closed cannot be read by this version: what stands here is computed anew each time.'
    case 'not-computed':
      return 'It could not be computed when this panel was closed: what stands here is computed anew each time.'
  }
}

export function DecisionsMade({ result, zone }: { result: PanelResult; zone: string }) {
  if (result.decisions.length === 0) return null
  return (
    <Section title="Decided">
      <DecisionLines
        decisions={result.decisions.map((decision) => ({
          ...decision,
          // All of it stands on this page.
          evidence: null,
          by: decision.byId ? (result.deciders.get(decision.byId) ?? 'somebody') : 'the house',
        }))}
        zone={zone}
      />
    </Section>
  )
}

export function Method({ result }: { result: NamelessResult }) {
  if (result.rank) return <RankMethod result={result} rank={result.rank} />
  if (result.choice) return <ChoiceMethod result={result} />
  if (result.difference) return <DifferenceMethod result={result} />
  const liking = result.primary ?? result.liking
  if (!liking) return <p>There were no scores to compute from.</p>
  const { carries, beside } = sayMethod(liking, result.margin !== null)
  const { variance } = liking.model
  const variances = [
    ['between tasters', variance.taster],
    ['taster by cup', variance.tasterByCup],
    ['residual', variance.residual],
  ] as const
  return (
    <div className="grid max-w-prose gap-3">
      {'program' in result.found && (
        <p>
          Sentences by version {result.found.program}, computed as <code>{result.found.method}</code>.
        </p>
      )}
      <p>{carries}</p>
      <div>
        <p>Beside them, and no claim rests on these:</p>
        <ul className="grid list-disc gap-1 ps-5">
          {beside.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </div>
      <p>
        Model: <code>{liking.model.formula}</code>. Variances:{' '}
        {variances.flatMap(([words, value]) => (value === null ? [] : [`${words} ${fixed(value, 3)}`])).join(', ')}.
      </p>
      {liking.overall.p !== null && liking.overall.F !== null && (
        <p>
          All cups together: F = {fixed(liking.overall.F, 2)} on {liking.overall.df1} and{' '}
          {fixed(liking.overall.df2 ?? 0, 1)} degrees of freedom, p{' '}
          {liking.overall.p < 0.001 ? 'below 0.001' : `= ${fixed(liking.overall.p, 3)}`}.
        </p>
      )}
      {liking.position?.p != null && (
        <p>Place in the order: p {liking.position.p < 0.001 ? 'below 0.001' : `= ${fixed(liking.position.p, 3)}`}.</p>
      )}
      {liking.notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
      <p className="text-soft">
        The tasters of one café are not all guests. A small panel finds only large differences; an interval says how
        large the difference may be.
      </p>
    </div>
  )
}

/** The question of the panel, and when it was answered. */
export function Asked({ result, zone }: { result: PanelResult; zone: string }) {
  return (
    <span className="text-m">
      {result.question} {result.closedAt && `Closed ${sayDay(result.closedAt, zone)}.`}
      {result.isDemo && <DemoMark />}
    </span>
  )
}

/** @param decides  whoever reads this may decide */
export function NextAct({ result, here, decides }: { result: PanelResult; here: string; decides: boolean }) {
  const decided = result.decisions.length > 0
  return (
    <>
      {decides && <DecideLink here={here} decided={decided} />}
      {!decided && <span className="text-soft">{result.verdict.next}</span>}
    </>
  )
}

function DecideLink({ here, decided }: { here: string; decided: boolean }) {
  return (
    <ButtonLink look={decided ? 'plain' : 'main'} href={`${here}/decide`}>
      {decided ? 'Decide again' : 'Decide'}
    </ButtonLink>
  )
}
