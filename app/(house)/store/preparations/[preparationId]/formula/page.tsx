import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { formulaMark } from '@/lib/tasks/opened-with'
import { readFormula, readFormulaOffer } from '@/lib/tasks/store/read-formula'
import { readPreparation } from '@/lib/tasks/store/read-preparation'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Page } from '@/app/ui/page-frame'
import { partChoice } from '@/app/ui/part-choice'
import { openToWhoServes } from '../../../../open-to-who-serves'
import { keepFormulaAction } from '../../actions'
import { formulaDefaults } from './formula-defaults'
import { FormulaFields } from './formula-fields'

export const metadata: Metadata = { title: 'Formula' }

export default async function FormulaPage({ params }: { params: Promise<{ preparationId: string }> }) {
  const member = await requireMember('recipe:write')
  const { preparationId } = await params
  await openToWhoServes(member, { preparationId })
  const preparation = await readPreparation(theWorld(), member, preparationId)
  if (!preparation) notFound()
  const sheet = await readFormula(theWorld(), member, preparationId)
  const parts = await readFormulaOffer(theWorld(), member, preparationId)
  const version = (sheet?.newest.row.version ?? 0) + 1
  return (
    <Page
      trail={[
        { href: '/store', words: 'Store' },
        { href: `/store/preparations/${preparationId}`, words: preparation.name },
      ]}
      title={`Formula of ${preparation.name}`}
      answer={
        version === 1
          ? 'How it is made every time; each batch says what it really came to.'
          : `Saved as version ${version}. The earlier ones stay as they are, and so do their batches.`
      }
    >
      <ActForm
        id="formula"
        action={keepFormulaAction.bind(null, preparationId)}
        keep={`formula-${preparationId}`}
        opened={formulaMark(sheet?.newest.row ?? null)}
        defaults={sheet ? formulaDefaults(sheet.newest) : {}}
        submit={`Save as version ${version}`}
        className="max-w-xl"
      >
        <FormulaFields parts={parts.map(partChoice)} kind={preparation.kind} />
      </ActForm>
    </Page>
  )
}
