import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readPlanBasis } from '@/lib/tasks/plan/read-plan-basis'
import { readRecipesToTest } from '@/lib/tasks/plan/read-recipes-to-test'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Empty, Page } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { planAction } from '../actions'
import { panelsStep } from '../panel-words'
import { firstFigures } from '../first-figures'
import { PlanForm } from '../plan-form'
import { freshPlan } from '../plan-defaults'
import { RecipeChoice } from './recipe-choice'

export const metadata: Metadata = { title: 'Plan a panel' }

export default async function NewPanelPage({ searchParams }: { searchParams: Query }) {
  const member = await requireMember('panel:run')
  const { recipe } = await once(searchParams)
  if (!recipe) {
    const recipes = await readRecipesToTest(theWorld(), member)
    return (
      <Page trail={[panelsStep]} title="Plan a panel" answer="Which drink is it about?">
        <RecipeChoice recipes={recipes} />
      </Page>
    )
  }
  const basis = await readPlanBasis(theWorld(), member, recipe)
  if (!basis) notFound()
  return (
    <Page
      trail={[panelsStep, { href: `/recipes/${basis.recipe.id}`, words: basis.recipe.name }]}
      title="Plan a panel"
      answer="A draft can be changed until it is opened; opening fixes it for good."
    >
      {basis.trials.length < 2 ? (
        <Empty
          words="A panel compares at least two trials. Weigh another one first."
          act={<ButtonLink href={`/recipes/${basis.recipe.id}`}>To the recipe</ButtonLink>}
        />
      ) : (
        <PlanForm
          id={`plan-of-${basis.recipe.id}`}
          basis={basis}
          defaults={freshPlan(basis)}
          figures={await firstFigures(theWorld(), member, basis.recipe.id, freshPlan(basis))}
          action={planAction.bind(null, basis.recipe.id)}
          submit="Keep this plan"
        />
      )}
    </Page>
  )
}
