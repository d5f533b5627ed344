import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { AreaField } from '@/app/ui/field'
import { Notice } from '@/app/ui/notice'
import { Page } from '@/app/ui/page-frame'
import { importTrialAction } from './actions'
import { FileIntoText } from './file-into-text'

export const metadata: Metadata = { title: 'Bring a trial file' }

export default async function ImportPage({ params }: { params: Promise<{ recipeId: string }> }) {
  const member = await requireMember('recipe:write')
  const { recipeId } = await params
  const found = await readRecipe(theWorld(), member, recipeId)
  if (!found) notFound()
  return (
    <Page
      trail={[
        { href: '/recipes', words: 'Recipes' },
        { href: `/recipes/${recipeId}`, words: found.recipe.name },
      ]}
      title="Bring a trial file"
      answer="It becomes a new draft of this recipe."
    >
      <Notice look="caution">
        What the file names and the store does not have is entered with the file’s figures. Its labels count as unread
        here: read the one in your hand.
      </Notice>
      <ActForm id="import" action={importTrialAction.bind(null, recipeId)} submit="Bring it in" className="max-w-2xl">
        <FileIntoText target="import-file" />
        <AreaField
          name="content"
          label="Text of the file"
          rows={10}
          help="JSON, as “Trial file” on a trial’s page gives it."
        />
      </ActForm>
    </Page>
  )
}
