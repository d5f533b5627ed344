'use server'

import { revalidatePath } from 'next/cache'
import { requireMember } from '@/lib/auth/guard'
import { endSharing, shareResult } from '@/lib/tasks/result/share-result'
import { theWorld } from '@/lib/tasks/world'

export async function shareAction(panelId: string): Promise<{ path: string } | { problem: string }> {
  const member = await requireMember('decide', panelId)
  const shared = await shareResult(theWorld(), member, panelId)
  if (!shared.ok) return { problem: 'The panel is not closed.' }
  revalidatePath(`/panels/${panelId}/result`)
  return { path: `/read/${shared.value}` }
}

export async function endSharingAction(panelId: string, linkId: string): Promise<void> {
  const member = await requireMember('decide', panelId, linkId)
  await endSharing(theWorld(), member, panelId, linkId)
  revalidatePath(`/panels/${panelId}/result`)
}
