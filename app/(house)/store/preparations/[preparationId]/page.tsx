import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readFormula } from '@/lib/tasks/store/read-formula'
import { readBatchesOf, readPreparation } from '@/lib/tasks/store/read-preparation'
import { readYields } from '@/lib/tasks/store/read-yields'
import { theWorld } from '@/lib/tasks/world'
import { Empty, Page, Section } from '@/app/ui/page-frame'
import { once, type Query } from '@/app/ui/query'
import { openToWhoServes } from '../../../open-to-who-serves'
import { sayMeasured, sayWhatItIs } from '../../say-store'
import { BatchLines, EarlierBatches } from './batch-lines'
import { FormulaSection } from './formula-parts'
import { PreparationActs } from './preparation-acts'
import { YieldSection } from './yield-parts'

export const metadata: Metadata = { title: 'Preparation' }

interface Props {
  params: Promise<{ preparationId: string }>
  searchParams: Query
}

export default async function PreparationPage({ params, searchParams }: Props) {
  const member = await requireMember('recipe:read')
  const [{ preparationId }, { before }] = [await params, await once(searchParams)]
  await openToWhoServes(member, { preparationId })
  const preparation = await readPreparation(theWorld(), member, preparationId)
  if (!preparation) notFound()
  const seen = /^\d{1,9}$/.test(before ?? '') ? Number(before) : null
  const { batches, earlier } = await readBatchesOf(theWorld(), member, preparationId, seen)
  const formula = await readFormula(theWorld(), member, preparationId)
  const yields = await readYields(theWorld(), member, preparationId)
  const here = `/store/preparations/${preparationId}`
  return (
    <Page
      trail={[{ href: '/store', words: 'Store' }]}
      title={preparation.name}
      answer={sayWhatItIs(preparation)}
      act={
        canDo(member, 'recipe:write') && (
          <PreparationActs here={here} preparation={preparation} hasFormula={formula !== null} />
        )
      }
    >
      {preparation.note && <p className="max-w-prose whitespace-pre-line">{preparation.note}</p>}
      {sayMeasured(preparation) && <p>{sayMeasured(preparation)}</p>}
      {formula && <FormulaSection sheet={formula} zone={member.cafe.timeZone} currency={member.cafe.currency} />}
      <Section title="Batches">
        {batches.length === 0 ? (
          <Empty words="No batch yet. Tare the pot, weigh what goes in, and weigh what came out." />
        ) : (
          <BatchLines batches={batches} here={here} zone={member.cafe.timeZone} now={theWorld().now()} />
        )}
        {earlier !== null && <EarlierBatches here={here} before={earlier} />}
      </Section>
      {yields.length > 0 && <YieldSection yields={yields} here={here} zone={member.cafe.timeZone} />}
    </Page>
  )
}
