import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { vesselMark } from '@/lib/tasks/opened-with'
import { readVessel } from '@/lib/tasks/store/read-vessel'
import { theWorld } from '@/lib/tasks/world'
import { ActForm } from '@/app/ui/act-form'
import { Button } from '@/app/ui/button'
import { Page } from '@/app/ui/page-frame'
import { plain } from '@/lib/base/number-format'
import { archiveVesselAction, correctVesselAction } from '../../actions'
import { vesselDefaults } from '../vessel-defaults'
import { VesselFields } from '../vessel-fields'

export const metadata: Metadata = { title: 'Vessel' }

export default async function VesselPage({ params }: { params: Promise<{ vesselId: string }> }) {
  const member = await requireMember('recipe:read')
  const { vesselId } = await params
  const vessel = await readVessel(theWorld(), member, vesselId)
  if (!vessel) notFound()
  const { currency } = member.cafe
  const aside = vessel.archivedAt !== null
  return (
    <Page
      trail={[{ href: '/store', words: 'Store' }]}
      title={vessel.name}
      answer={`${plain(vessel.brimUl / 1000, 1)} ml to the brim.${aside ? ' Put aside.' : ''}`}
    >
      {canDo(member, 'recipe:write') && (
        <>
          <ActForm
            id="vessel"
            action={correctVesselAction.bind(null, vesselId)}
            keep={`vessel-${vesselId}`}
            opened={vesselMark(vessel, member.cafe)}
            defaults={vesselDefaults(vessel, member.cafe)}
            submit="Save"
            className="max-w-md"
          >
            <VesselFields currency={currency} />
          </ActForm>
          <form action={archiveVesselAction.bind(null, vesselId, !aside)}>
            <Button type="submit" look="quiet">
              {aside ? 'Take up again' : 'Put aside'}
            </Button>
          </form>
        </>
      )}
    </Page>
  )
}
