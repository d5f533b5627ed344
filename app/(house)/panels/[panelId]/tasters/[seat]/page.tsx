import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { readKeptOfSeat } from '@/lib/tasks/privacy/read-kept'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { CheckField } from '@/app/ui/field'
import { Page, Section } from '@/app/ui/page-frame'
import { PrintButton } from '@/app/ui/print-button'
import { panelTrail } from '../../../panel-words'
import { KeptLines } from './kept-lines'
import { forgetTasterAction } from './actions'

export const metadata: Metadata = { title: 'What is kept of a taster' }

export default async function TasterPage({ params }: { params: Promise<{ panelId: string; seat: string }> }) {
  const member = await requireMember('panel:run')
  const { panelId, seat } = await params
  const number = Number(seat)
  const kept = Number.isSafeInteger(number) ? await readKeptOfSeat(theWorld(), member, panelId, number) : null
  if (!kept) notFound()
  const tasters = { href: `/panels/${panelId}/tasters`, words: 'Tasters' }
  return (
    <Page
      trail={[...panelTrail({ id: panelId, title: kept.panelTitle }), tasters]}
      title={`All that is kept of seat ${kept.seat}`}
      answer={kept.name === null ? 'The name is taken out.' : `${kept.name} sat here.`}
      act={<PrintButton />}
    >
      <KeptLines kept={kept} />
      {kept.name !== null && (
        <div className="screen-only">
          <Section title="When the taster asks for it">
            <ActForm
              id="forget"
              action={forgetTasterAction.bind(null, panelId, number)}
              submit="Take the name out"
              submitLook="plain"
              className="max-w-md"
            >
              <CheckField name="words" label="Comments too" help="A comment may say who wrote it. Scores stay." />
            </ActForm>
          </Section>
        </div>
      )}
    </Page>
  )
}
