import { requireMember } from '@/lib/auth/guard'
import { readHomeCount } from '@/lib/tasks/home/read-home-sheets'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Section } from '@/app/ui/page-frame'

/** What people at home said, in a place of its own; nothing is shown where the café never gave a sheet out. */
export async function HomeSection({ recipeId, writes }: { recipeId: string; writes: boolean }) {
  const member = await requireMember('recipe:read')
  const { hearsBack, sheets, answers } = await readHomeCount(theWorld(), member, recipeId)
  if (sheets === 0 && !(hearsBack && writes)) return null
  return (
    <Section title="Made at home">
      <p className="max-w-prose">
        {answers === 0
          ? 'Nothing has come back yet'
          : answers === 1
            ? 'One answer came back'
            : `${answers} answers came back`}{' '}
        to {sheets === 1 ? 'one sheet' : `${sheets} sheets`}: beside what blind panels found, never counted with it.
      </p>
      <ButtonLink look="plain" href={`/recipes/${recipeId}/home`}>
        From home
      </ButtonLink>
    </Section>
  )
}
