import Link from 'next/link'
import type { Home } from '@/lib/tasks/house/read-home'
import { DemoMark } from '@/app/ui/demo-mark'
import { Moment } from '@/app/ui/moment'
import { Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'
import { ChangedLines } from './store/changes/changed-lines'
import { sayKinds } from './store/changes/say-change'

function sayChanged(changed: Home['changes'][number]): string {
  const [house] = changed.glasses
  const what = `${changed.name} changed: ${sayKinds(changed)}`
  return house ? `${what}. It is in the house recipe of ${house.recipe.name}.` : `${what}.`
}

/** What needs somebody now, in one sentence. */
export function sayHome(home: Home, reads: boolean): string {
  const [open] = home.open
  if (open)
    return home.open.length === 1 ? `The panel “${open.title}” is open.` : `${home.open.length} panels are open.`
  if (!reads) return 'No panel is open.'
  const [waiting] = home.undecided
  if (waiting) return `“${waiting.title}” waits for a decision.`
  const [draft] = home.drafts
  if (draft) return `“${draft.title}” is planned and not poured.`
  const [changed] = home.changes
  if (changed) return sayChanged(changed)
  const [repriced] = home.repriced
  if (repriced)
    return `${repriced.ingredients[0]} has a new price; it is in the house recipe of ${repriced.recipe.name}.`
  return home.recipes === 0 ? 'Nothing is here yet.' : 'Nothing waits for you.'
}

/** The one next act that goes with the sentence. */
export function homeAct(home: Home, may: { readonly writes: boolean }): { href: string; words: string } | null {
  const [open] = home.open
  if (open) return { href: `/panels/${open.id}`, words: 'To the open panel' }
  const [waiting] = home.undecided
  if (waiting) return { href: `/panels/${waiting.id}/result`, words: 'Read the result' }
  const [draft] = home.drafts
  if (draft) return { href: `/panels/${draft.id}`, words: 'To the plan' }
  if (home.changes.length > 0) return { href: '/store/changes', words: 'See what changed' }
  const [repriced] = home.repriced
  if (repriced) return { href: `/trials/${repriced.trial.id}`, words: 'See what it costs now' }
  if (home.recipes > 0) return { href: '/recipes', words: 'To the recipes' }
  return may.writes ? { href: '/recipes/new', words: 'Start a recipe' } : null
}

type Lines = Home['open']

function HomeLines({ panels, zone, to }: { panels: Lines; zone: string; to?: 'result' | 'watch' }) {
  return (
    <ul className="divide-y divide-line rounded border border-line bg-raised">
      {panels.map((panel) => (
        <li key={panel.id} className="px-4 py-2">
          <Link
            href={`/panels/${panel.id}${to ? `/${to}` : ''}`}
            prefetch={false}
            className="inline-block py-1 font-semibold"
          >
            {panel.title}
          </Link>
          <p className="text-s text-soft">
            {panel.recipe.name} · {panel.cupCount} cups ·{' '}
            <Moment at={panel.closedAt ?? panel.openedAt ?? panel.createdAt} zone={zone} day />
            {panel.isDemo && <DemoMark />}
          </p>
        </li>
      ))}
    </ul>
  )
}

interface NeedProps {
  readonly home: Home
  readonly zone: string
  readonly currency: string
  readonly reads: boolean
}

export function NeedLines({ home, zone, currency, reads }: NeedProps) {
  return (
    <>
      {home.open.length > 0 && (
        <Section title="Open now">
          <HomeLines panels={home.open} zone={zone} to={reads ? undefined : 'watch'} />
        </Section>
      )}
      {home.undecided.length > 0 && (
        <Section title="Waiting for a decision">
          <HomeLines panels={home.undecided} zone={zone} to="result" />
        </Section>
      )}
      {home.drafts.length > 0 && (
        <Section title="Planned, not poured">
          <HomeLines panels={home.drafts} zone={zone} />
        </Section>
      )}
      <ChangedLines changes={home.changes} currency={currency} />
      {home.repriced.length > 0 && (
        <Section title="House recipes with a changed price">
          <ul className="divide-y divide-line rounded border border-line bg-raised">
            {home.repriced.map((house) => (
              <li key={house.recipe.id} className="px-4 py-2">
                <Link href={`/trials/${house.trial.id}`} prefetch={false} className="inline-block py-1 font-semibold">
                  {house.recipe.name}
                </Link>
                <p className="text-s text-soft">
                  New price since it was adopted: {house.ingredients.join(', ')}. Its cost on the sheet is of today.
                </p>
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  )
}

/** For the owner of a café from before this was asked. */
export function NamesNotice() {
  return (
    <Notice look="caution" word="To be settled">
      Nobody has chosen how long names of tasters are kept. Until then nothing is forgotten by itself.{' '}
      <Link href="/team" prefetch={false}>
        Choose it on the team’s page
      </Link>
      .
    </Notice>
  )
}
