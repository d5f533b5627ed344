import Link from 'next/link'
import { plain } from '@/lib/base/number-format'
import type { TrialSheet } from '@/lib/tasks/trial/read-trial'
import { Button, ButtonLink } from '@/app/ui/button'
import { sayFigure } from '@/app/ui/figure'
import { sayDay } from '@/app/ui/moment'
import { Notice } from '@/app/ui/notice'
import { archiveTrialAction } from '../actions'

/** What the drink is, in one line, and what became of it. */
export function TrialSentence({ sheet }: { sheet: TrialSheet }) {
  const { figures, trial, isHouse, panels } = sheet
  const known = [
    figures.totalMass.known && sayFigure(figures.totalMass),
    figures.sugars.known && `${sayFigure(figures.sugars)} sugars`,
    figures.cost.perGlass.known && `costs ${sayFigure(figures.cost.perGlass)}`,
  ].filter((words): words is string => typeof words === 'string')
  const state = isHouse
    ? 'This is the house recipe.'
    : trial.frozenAt
      ? 'Poured in a panel: it stays as it is.'
      : trial.archivedAt
        ? 'Put aside.'
        : 'A draft: it can still be changed.'
  return (
    <>
      {known.length > 0 && `${known.join(', ')}. `}
      {state}
      {sheet.costToday && ` With today’s prices a glass costs ${sayFigure(sheet.costToday)}.`}
      {panels.map((panel) => (
        <span key={panel.id} className="ms-2 text-m">
          <Link href={`/panels/${panel.id}`} prefetch={false}>
            {panel.title}
          </Link>
        </span>
      ))}
    </>
  )
}

/** Which day the figures are of; allergens are always as the labels stand today. */
export function sayFiguresOf({ figuresOf, trial }: TrialSheet, zone: string): string {
  if (figuresOf === 'today' || !trial.frozenAt) return 'Each figure opens to its working'
  const day = sayDay(trial.frozenAt, zone)
  return sayDayOf[figuresOf](day)
}

const sayDayOf: Readonly<Record<Exclude<TrialSheet['figuresOf'], 'today'>, (day: string) => string>> = {
  'its day': (day) => `Figures of ${day}, when it was frozen; allergens as the labels stand today`,
  'its day, worked out today': (day) =>
    `From the sheet of ${day}, when it was frozen, worked out today; allergens as the labels stand today`,
  'today, its sheet is lost': (day) => `The sheet kept on ${day} cannot be read: these are today’s figures`,
}

/** What the same sheet gives today, where a formula was mended since the trial froze. */
export function MendedSince({ mended }: Pick<TrialSheet, 'mended'>) {
  if (mended.length === 0) return null
  const say = (value: number | null, unit: string) => (value === null ? 'not known' : `${plain(value)}\u00a0${unit}`)
  return (
    <Notice look="caution" word="Worked out again today">
      The way of working out was mended since. The same sheet gives today:{' '}
      {mended
        .map(
          ({ what, units, before, after }) => `${what} ${say(after, units.after)} (then ${say(before, units.before)})`,
        )
        .join('; ')}
      .
    </Notice>
  )
}

export function TrialActs({ sheet, writes }: { sheet: TrialSheet; writes: boolean }) {
  const { trial } = sheet
  const here = `/trials/${trial.id}`
  const draft = trial.frozenAt === null
  return (
    <>
      {writes && draft && <ButtonLink href={`${here}/edit`}>Edit the sheet</ButtonLink>}
      {writes && (
        <ButtonLink look={draft ? 'plain' : 'main'} href={`${here}/vary`}>
          Make another from it
        </ButtonLink>
      )}
      {writes && (
        <ButtonLink look="plain" href={`${here}/ladder`}>
          Ladder
        </ButtonLink>
      )}
      <ButtonLink look="plain" href={`${here}/scale`}>
        Beside the scale
      </ButtonLink>
      <ButtonLink look="plain" href={`${here}/make`}>
        Make many
      </ButtonLink>
      <ButtonLink look="plain" href={`${here}/sizes`}>
        Sizes
      </ButtonLink>
      <ButtonLink look="quiet" href={`${here}/card`}>
        Card
      </ButtonLink>
      <a className="inline-flex min-h-11 items-center px-2 font-semibold" href={`${here}/file`} download>
        Trial file
      </a>
      {writes && !sheet.isHouse && (
        <form action={archiveTrialAction.bind(null, trial.id, trial.archivedAt === null)}>
          <Button type="submit" look="quiet">
            {trial.archivedAt ? 'Take up again' : 'Put aside'}
          </Button>
        </form>
      )}
    </>
  )
}
