import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { allergenChoices } from '@/lib/forms/ingredient-form'
import { readIngredient } from '@/lib/tasks/store/read-ingredient'
import { theWorld } from '@/lib/tasks/world'
import { ActButton } from '@/app/ui/act-button'
import { ButtonLink } from '@/app/ui/button'
import { Page, Section } from '@/app/ui/page-frame'
import { archiveIngredientAction, strikePriceAction } from '../../actions'
import { sayKind, storeTrail } from '../../say-store'
import { UsesSection } from '../../uses'
import { OpenedPacks } from './opened-packs'
import { Doubts, IngredientFigures, LabelPart, PricePart } from './ingredient-parts'

export const metadata: Metadata = { title: 'Ingredient' }

export default async function IngredientPage({ params }: { params: Promise<{ ingredientId: string }> }) {
  const member = await requireMember('recipe:read')
  const { ingredientId } = await params
  const card = await readIngredient(theWorld(), member, ingredientId)
  if (!card) notFound()
  const { row } = card
  const writes = canDo(member, 'recipe:write')
  const here = `/store/ingredients/${ingredientId}`
  return (
    <Page
      trail={[storeTrail]}
      title={row.name}
      answer={`${row.archivedAt ? 'Put aside. ' : ''}${sayKind(row.kind).replace(/^./, (first) => first.toUpperCase())}; ${row.labelReadAt ? 'its label has been read.' : 'nobody has read its label yet.'}`}
      act={
        writes && (
          <>
            <ButtonLink href={`${here}/edit`}>{row.labelReadAt ? 'Correct it' : 'Read its label'}</ButtonLink>
            <ButtonLink look="plain" href={`${here}/price`}>
              Add a price
            </ButtonLink>
            <ActButton
              look="quiet"
              words={row.archivedAt ? 'Take up again' : 'Put aside'}
              action={archiveIngredientAction.bind(null, row.id, row.archivedAt === null)}
            />
          </>
        )
      }
    >
      <Doubts doubts={card.doubts} />
      <LabelPart card={card} zone={member.cafe.timeZone} {...allergenChoices(member.cafe.allergenList)} />
      <Section title="Figures per 100 g" aside="The label in the hand wins">
        <IngredientFigures row={row} zone={member.cafe.timeZone} />
      </Section>
      <PricePart card={card} cafe={member.cafe} strike={writes ? strikePriceAction.bind(null, ingredientId) : null} />
      <OpenedPacks member={member} ingredientId={ingredientId} />
      <UsesSection {...card.uses} />
    </Page>
  )
}
