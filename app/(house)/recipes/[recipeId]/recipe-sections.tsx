import type { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { Button, ButtonLink } from '@/app/ui/button'
import { Empty, Section } from '@/app/ui/page-frame'
import { PanelLines } from '@/app/ui/panel-lines'
import { TrialTree } from '@/app/ui/trial-tree'

type Found = NonNullable<Awaited<ReturnType<typeof readRecipe>>>

export function TrialsSection({ found, here, writes }: { found: Found; here: string; writes: boolean }) {
  return (
    <Section
      title="Trials"
      aside={
        writes && (
          <ButtonLink look="quiet" href={`${here}/first-trial`}>
            Record a trial
          </ButtonLink>
        )
      }
    >
      {found.trials.length === 0 ? (
        <Empty words="No trial yet. Weigh one version of the drink and write down what went in." />
      ) : found.trials.length < 2 ? (
        <TrialTree trials={found.trials} />
      ) : (
        <form action={`${here}/beside`} className="grid gap-3">
          <TrialTree trials={found.trials} ticked="trial" />
          <div className="flex flex-wrap items-center gap-3">
            <Button type="submit" look="plain">
              Show side by side
            </Button>
            <span className="text-s text-soft">Tick two to six trials.</span>
          </div>
        </form>
      )}
    </Section>
  )
}

/** The newest panels; the rest stands in the history. */
export function PanelsSection({
  found,
  here,
  runs,
  zone,
}: {
  found: Found
  here: string
  runs: boolean
  zone: string
}) {
  return (
    <Section
      title="Panels"
      aside={
        runs && (
          <ButtonLink look="quiet" href={`/panels/new?recipe=${found.recipe.id}`}>
            Plan a panel
          </ButtonLink>
        )
      }
    >
      {found.panels.length === 0 ? (
        <Empty words="No panel yet. Two trials are enough to ask tasters, blind, which they like better." />
      ) : (
        <PanelLines panels={found.panels} zone={zone} />
      )}
      {found.panelCount > found.panels.length && (
        <ButtonLink look="plain" href={`${here}/why?page=2`}>
          Earlier panels, of {found.panelCount}
        </ButtonLink>
      )}
    </Section>
  )
}
