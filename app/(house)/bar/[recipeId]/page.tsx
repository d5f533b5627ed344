import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readBarRecipe } from '@/lib/tasks/bar/read-bar-recipe'
import { theWorld } from '@/lib/tasks/world'
import { CardOrWhyNot } from '@/app/(house)/trials/[trialId]/card/card-or-why-not'
import { ScaleSteps } from '@/app/(house)/trials/[trialId]/scale/scale-steps'
import { sayDay } from '@/app/ui/moment'
import { Page, Section } from '@/app/ui/page-frame'
import { PastBatches } from '@/app/ui/past-batches'
import { PrintButton } from '@/app/ui/print-button'
import { PrintSheet } from '@/app/ui/print-sheet'
import { Pours } from './pours'

export const metadata: Metadata = { title: 'Make it' }

export default async function BarRecipePage({ params }: { params: Promise<{ recipeId: string }> }) {
  const member = await requireMember('bar:make')
  const { recipeId } = await params
  const made = await readBarRecipe(theWorld(), member, recipeId)
  if (!made) notFound()
  const { card, build, pours, past, forToday } = made
  const { sheet } = card
  return (
    <Page
      trail={[{ href: '/bar', words: 'Bar' }]}
      title={<span className="print:hidden">{sheet.trial.recipe.name}</span>}
      act={card.unread.length === 0 && <PrintButton words="Print the card" />}
    >
      <PrintSheet card="a4" />
      <div className="screen-only grid gap-8">
        <PastBatches past={past} zone={member.cafe.timeZone} />
        <Pours pours={pours} zone={member.cafe.timeZone} />
        <Section title="Beside the scale">
          <ScaleSteps
            trialId={sheet.trial.id}
            build={build}
            today={forToday}
            cautions={sheet.figures.cautions}
            keptAt={`/bar/${recipeId}/weighings`}
          />
        </Section>
      </div>
      <CardOrWhyNot
        card={card}
        size="a4"
        link={null}
        printed={sayDay(theWorld().now(), member.cafe.timeZone)}
        cafe={member.cafe}
        mayRead={false}
      />
    </Page>
  )
}
