'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { takeWeights } from '@/lib/tasks/trial/take-weights'
import { theWorld } from '@/lib/tasks/world'

export async function takeWeightsAction(trialId: string, weighingId: string): Promise<void> {
  const member = await requireMember('recipe:write', trialId, weighingId)
  const taken = await takeWeights(theWorld(), member, trialId, weighingId)
  redirect(`/trials/${trialId}/built?${taken.ok ? `taken=${taken.value}` : `refused=${taken.reason}`}`)
}
