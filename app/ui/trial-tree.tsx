import Link from 'next/link'
import type { TrialBranch } from '@/lib/tasks/recipe/read-recipe'

const deepest = 'ps-[7.25rem]'
const indents = ['ps-4', 'ps-9', 'ps-14', 'ps-19', 'ps-24']

/** The trials as they came from one another; each says in one line what changed. `ticked`: each can be ticked, by this name. */
export function TrialTree({ trials, ticked }: { trials: readonly TrialBranch[]; ticked?: string | undefined }) {
  return (
    <ol className="grid gap-0 rounded border border-line bg-raised">
      {trials.map((trial) => (
        <li
          key={trial.id}
          className={`border-b border-line py-2 pe-4 last:border-b-0 ${indents[trial.depth] ?? deepest} ${trial.archived ? 'text-soft' : ''}`}
        >
          <p className="flex flex-wrap items-baseline gap-x-3">
            {trial.depth > 0 && (
              <span aria-hidden="true" className="text-soft">
                └
              </span>
            )}
            <Link href={`/trials/${trial.id}`} prefetch={false} className="py-1 font-semibold">
              {trial.number}. {trial.name}
            </Link>
            {ticked && <Tick name={ticked} trial={trial} />}
            {trial.isHouse && <Mark words="house recipe" strong />}
            {trial.frozen && !trial.isHouse && <Mark words="poured" />}
            {trial.archived && <Mark words="put aside" />}
          </p>
          <p className="text-s text-soft">
            {trial.change ?? trial.method}
            {trial.panels.map((panel) => (
              <span key={panel.id}>
                {' · '}
                <Link href={`/panels/${panel.id}`} prefetch={false}>
                  {panel.title}
                </Link>
              </span>
            ))}
            {trial.panelCount > trial.panels.length &&
              ` · ${trial.panels.length > 0 ? 'poured in ' : ''}${trial.panelCount} panels${trial.panels.length > 0 ? ' in all' : ''}`}
          </p>
        </li>
      ))}
    </ol>
  )
}

function Tick({ name, trial }: { name: string; trial: TrialBranch }) {
  return (
    <label className="order-last ms-auto flex min-h-6 items-center gap-2 text-s text-soft">
      <input type="checkbox" name={name} value={trial.id} className="size-5 accent-[var(--accent)]" />
      side by side<span className="sr-only">: trial {trial.number}</span>
    </label>
  )
}

export function Mark({ words, strong = false }: { words: string; strong?: boolean }) {
  return (
    <span
      className={`rounded border px-1 text-s ${strong ? 'border-accent bg-accent-soft font-semibold' : 'border-line text-soft'}`}
    >
      {words}
    </span>
  )
}
