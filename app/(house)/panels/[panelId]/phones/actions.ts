'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { startPhoneTry } from '@/lib/tasks/plan/start-phone-try'
import { theWorld } from '@/lib/tasks/world'

export async function startTryAction(panelId: string): Promise<void> {
  const member = await requireMember('panel:run', panelId)
  const started = await startPhoneTry(theWorld(), member, panelId)
  redirect(`/panels/${panelId}/phones${started.ok ? `?try=${started.value}` : ''}`)
}
