import type { ReactNode } from 'react'
import Link from 'next/link'
import type { TrialSheet } from '@/lib/tasks/trial/read-trial'
import { isToldByFigures } from '@/lib/tasks/trial/stand-ins'
import { Button } from '@/app/ui/button'
import { archiveTrialAction } from '../actions'
import { DoorMenus } from './door-menus'

/** Three buttons; every other door of a trial stands inside one of them. */
export function TrialDoors({ sheet, writes }: { sheet: TrialSheet; writes: boolean }) {
  const { trial } = sheet
  const here = `/trials/${trial.id}`
  return (
    <DoorMenus>
      <Menu words="Make" main>
        <Way href={`${here}/scale`} words="Beside the scale" help="step by step, figures large" />
        <Way href={`${here}/make`} words="Make many" help="glasses or millilitres, with what to buy" />
        <Way href={`${here}/sizes`} words="Sizes" help="poured into another vessel" />
      </Menu>
      {writes && (
        <Menu words="Change">
          {trial.frozenAt === null && <Way href={`${here}/edit`} words="Edit the sheet" />}
          <Way href={`${here}/vary`} words="Make another from it" help="a new draft, one thing changed" />
          <Way href={`${here}/ladder`} words="Ladder" help="several drafts in even steps" />
          <Instead sheet={sheet} />
          {!sheet.isHouse && <Aside sheet={sheet} />}
        </Menu>
      )}
      <Menu words="Show">
        <Way href={`${here}/card`} words="Card" help="printed, to brew from" />
        <li>
          <a className={way} href={`${here}/file`}>
            Trial file
            <Help words="the sheet as a file to take away" />
          </a>
        </li>
        {!writes && <Instead sheet={sheet} />}
        <Compare trialId={trial.id} others={sheet.others} />
      </Menu>
    </DoorMenus>
  )
}

const way = 'block min-h-11 rounded px-3 py-2 font-semibold no-underline hover:bg-accent-soft'

function Menu({ words, main = false, children }: { words: string; main?: boolean; children: ReactNode }) {
  const look = main
    ? 'bg-accent text-on-accent hover:brightness-110'
    : 'border border-edge bg-raised text-ink hover:border-ink'
  return (
    <details name="doors">
      <summary
        className={`flex min-h-11 list-none items-center gap-2 rounded px-4 py-2 font-semibold [&::-webkit-details-marker]:hidden ${look}`}
      >
        {words}
        <svg viewBox="0 0 10 6" width={10} height={6} aria-hidden="true">
          <path d="M1 1l4 4 4-4" fill="none" stroke="currentColor" strokeWidth={1.5} />
        </svg>
      </summary>
      <ul className="absolute inset-x-0 z-10 mt-1 rounded border border-edge bg-raised p-1 shadow-float sm:inset-x-auto sm:w-80 lg:end-0">
        {children}
      </ul>
    </details>
  )
}

function Way({ href, words, help }: { href: string; words: string; help?: string }) {
  return (
    <li>
      <Link href={href} prefetch={false} className={way}>
        {words}
        {help && <Help words={help} />}
      </Link>
    </li>
  )
}

const Help = ({ words }: { words: string }) => <span className="block text-s font-normal text-soft">{words}</span>

/** Each line whose figures tell leads to what could stand in for it. */
function Instead({ sheet: { build, trial } }: { sheet: TrialSheet }) {
  return build.lines.filter(isToldByFigures).map((line) => (
    <li key={line.key}>
      <Link href={`/trials/${trial.id}/instead/${line.key}`} prefetch={false} className={way}>
        Instead of {line.name}
      </Link>
    </li>
  ))
}

function Aside({ sheet: { trial } }: { sheet: TrialSheet }) {
  return (
    <li className="border-t border-line px-1">
      <form action={archiveTrialAction.bind(null, trial.id, trial.archivedAt === null)}>
        <Button type="submit" look="quiet">
          {trial.archivedAt ? 'Take up again' : 'Put aside'}
        </Button>
        <p className="px-2 pb-2 text-s text-soft">
          {trial.archivedAt ? 'Back into the lists.' : 'Out of the lists; it stays as it is and can be taken up again.'}
        </p>
      </form>
    </li>
  )
}

function Compare({ trialId, others }: { trialId: string; others: TrialSheet['others'] }) {
  if (others.length === 0) return null
  return (
    <li className="border-t border-line px-3 py-2">
      <form action={`/trials/${trialId}/compare`} className="grid gap-2">
        <label className="grid gap-1 font-semibold">
          Compare with
          <select name="with" className="min-h-11 w-full rounded border border-edge bg-raised px-3 font-normal">
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
    </li>
  )
}
