import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readCostLevels } from '@/lib/tasks/recipe/read-cost-levels'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { TextField } from '@/app/ui/field'
import { Empty, Page, Section } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { nameLevelAction } from './actions'
import { LevelChoices } from './level-choices'
import { LevelTable, sayLevels, TrialPick } from './level-table'

export const metadata: Metadata = { title: 'Cost levels' }

interface Props {
  params: Promise<{ recipeId: string }>
  searchParams: Query
}

export default async function LevelsPage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const { recipeId } = await params
  const { trial = null } = await once(searchParams)
  const sheet = await readCostLevels(theWorld(), member, recipeId, trial)
  if (!sheet) notFound()
  const writes = canDo(member, 'recipe:write')
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${recipeId}`, words: sheet.recipe.name },
      ]}
      title="Cost levels"
      answer={sayLevels(sheet)}
    >
      {sheet.trials.length > 1 && <TrialPick sheet={sheet} recipeId={recipeId} />}
      {sheet.levels.length === 0 ? (
        <Empty words="No level is named yet. Name one for each grade you buy: economy, standard, premium." />
      ) : (
        <LevelTable sheet={sheet} recipeId={recipeId} currency={member.cafe.currency} writes={writes} />
      )}
      {writes && sheet.trial && <LevelChoices sheet={sheet} recipeId={recipeId} />}
      {writes && (
        <Section title="Name a level">
          <ActForm
            key={sheet.levels.length}
            id="level"
            action={nameLevelAction.bind(null, recipeId)}
            submit="Add the level"
            submitLook="plain"
            className="max-w-md"
          >
            <TextField name="name" label="Name" help="As the café calls it." />
          </ActForm>
        </Section>
      )}
    </Page>
  )
}
