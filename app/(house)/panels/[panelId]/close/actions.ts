'use server'

import { redirect } from 'next/navigation'
import type { FormAnswer } from '@/app/ui/act-form'
import { sayMoment } from '@/app/ui/moment'
import { requireMember } from '@/lib/auth/guard'
import { NothingForm } from '@/lib/forms/panel-form'
import { readForm } from '@/lib/forms/read-form'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { theWorld } from '@/lib/tasks/world'

export async function closeAction(panelId: string, _before: FormAnswer, form: FormData): Promise<FormAnswer> {
  const member = await requireMember('panel:run', panelId)
  const read = readForm(form, NothingForm)
  if (!read.ok) return read.answer
  const closed = await closePanel(theWorld(), member, panelId)
  if (closed.ok) redirect(`/panels/${panelId}`)
  if (closed.reason !== 'closed-already')
    return read.refuse('', 'This panel is not open, so there is nothing to close.')
  const at = new Date(closed.detail?.['at'] ?? 0)
  const when = sayMoment(at, member.cafe.timeZone)
  return read.refuse(
    '',
    `${closed.detail?.['by'] ?? 'Somebody'} closed it on ${when}, before you did. It is closed and unblinded.`,
  )
}
