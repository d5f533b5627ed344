import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { readBatchesOf, readPreparation } from '@/lib/tasks/store/read-preparation'
import { theWorld } from '@/lib/tasks/world'
import { Button, ButtonLink } from '@/app/ui/button'
import { Empty, Page, Section } from '@/app/ui/page-frame'
import { sayPreparation } from '../../say-store'
import { archivePreparationAction } from '../actions'
import { BatchLines } from './batch-lines'

export const metadata: Metadata = { title: 'Preparation' }

export default async function PreparationPage({
  params,
  searchParams,
}: {
  params: Promise<{ preparationId: string }>
  searchParams: Promise<{ before?: string | string[] }>
}) {
  const member = await requireMember('recipe:read')
  const [{ preparationId }, { before }] = [await params, await searchParams]
  const preparation = await readPreparation(theWorld(), member, preparationId)
  if (!preparation) notFound()
  const seen = typeof before === 'string' && /^\d{1,9}$/.test(before) ? Number(before) : null
  const { batches, earlier } = await readBatchesOf(theWorld(), member, preparationId, seen)
  const here = `/store/preparations/${preparationId}`
  const aside = preparation.archivedAt !== null
  return (
    <Page
      trail={[{ href: '/store', words: 'Store' }]}
      title={preparation.name}
      answer={`${sayPreparation(preparation.kind)}${preparation.storageDeciC === null ? '' : `, kept at ${preparation.storageDeciC / 10} °C`}${preparation.keepsHours ? `, for ${preparation.keepsHours} h` : ''}.${aside ? ' Put aside.' : ''}`}
      act={
        canDo(member, 'recipe:write') && (
          <>
            <ButtonLink href={`${here}/batches/new`}>Make a batch</ButtonLink>
            <ButtonLink look="plain" href={`${here}/edit`}>
              Change
            </ButtonLink>
            <form action={archivePreparationAction.bind(null, preparationId, !aside)}>
              <Button type="submit" look="quiet">
                {aside ? 'Take up again' : 'Put aside'}
              </Button>
            </form>
          </>
        )
      }
    >
      {preparation.note && <p className="max-w-prose whitespace-pre-line">{preparation.note}</p>}
      <Section title="Batches">
        {batches.length === 0 ? (
          <Empty words="No batch yet. Tare the pot, weigh what goes in, and weigh what came out." />
        ) : (
          <BatchLines batches={batches} here={here} zone={member.cafe.timeZone} now={theWorld().now()} />
        )}
        {earlier !== null && (
          <ButtonLink look="plain" href={`${here}?before=${earlier}`}>
            Earlier batches
          </ButtonLink>
        )}
      </Section>
    </Page>
  )
}
