import type { Metadata } from 'next'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readBar } from '@/lib/tasks/bar/read-bar'
import { theWorld } from '@/lib/tasks/world'
import { ButtonLink } from '@/app/ui/button'
import { Empty, Page, Section } from '@/app/ui/page-frame'
import { BarBatches, BarDue, BarRecipes, sayBar } from './bar-parts'
import { PackList } from './packs/pack-list'

export const metadata: Metadata = { title: 'Bar' }

/** For who stands behind the bar: what is made today, from what, and what goes. No draft, no cost, no result. */
export default async function BarPage() {
  const member = await requireMember('bar:make')
  const bar = await readBar(theWorld(), member, canDo(member, 'recipe:read'))
  const zone = member.cafe.timeZone
  return (
    <Page
      title="Bar"
      answer={sayBar(bar)}
      act={
        <ButtonLink look="plain" href="/bar/packs">
          Opened packs
        </ButtonLink>
      }
    >
      {bar.due.length + bar.packs.length > 0 && (
        <Section title="Throw away" aside="Today and before">
          <div className="grid gap-3">
            {bar.due.length > 0 && <BarDue due={bar.due} zone={zone} />}
            {bar.packs.length > 0 && <PackList packs={bar.packs} zone={zone} acts />}
          </div>
        </Section>
      )}
      <Section title="House recipes">
        {bar.recipes.length === 0 ? (
          <Empty words="No drink has a house recipe yet." />
        ) : (
          <BarRecipes recipes={bar.recipes} />
        )}
      </Section>
      {bar.preparations.length > 0 && (
        <Section title="Batches" aside="What must go first is poured first">
          <BarBatches preparations={bar.preparations} zone={zone} />
        </Section>
      )}
    </Page>
  )
}
