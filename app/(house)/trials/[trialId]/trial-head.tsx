import Link from 'next/link'
import { plain } from '@/lib/base/number-format'
import type { TrialSheet } from '@/lib/tasks/trial/read-trial'
import { sayFigure } from '@/app/ui/figure'
import { sayDay } from '@/app/ui/moment'
import { Notice } from '@/app/ui/notice'

/** What became of it, what it costs today where that moved, and what it changed. */
export function TrialSentence({ sheet, zone }: { sheet: TrialSheet; zone: string }) {
  const { trial, isHouse, panels, parent } = sheet
  const state = isHouse
    ? 'This is the house recipe.'
    : trial.frozenAt
      ? 'Poured in a panel: it stays as it is.'
      : trial.archivedAt
        ? 'Put aside.'
        : 'A draft: it can still be changed.'
  const day = sayFiguresOf(sheet, zone)
  return (
    <>
      {state}
      {sheet.costToday && ` With today’s prices a glass costs ${sayFigure(sheet.costToday)}.`}
      {panels.map((panel) => (
        <span key={panel.id} className="ms-2 text-m">
          <Link href={`/panels/${panel.id}`} prefetch={false}>
            {panel.title}
          </Link>
        </span>
      ))}
      {parent && <p className="text-s text-soft">{parent.sentence}</p>}
      {day && <p className="text-s text-soft">{day}.</p>}
    </>
  )
}

/** Which day the figures are of; allergens are always as the labels stand today. */
function sayFiguresOf({ figuresOf, trial }: TrialSheet, zone: string): string | null {
  if (figuresOf === 'today' || !trial.frozenAt) return null
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
