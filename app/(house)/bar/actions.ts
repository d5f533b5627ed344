'use server'

import { redirect } from 'next/navigation'
import { canDo, requireMember } from '@/lib/auth/guard'
import { throwAway } from '@/lib/tasks/bar/throw-away'
import { theWorld } from '@/lib/tasks/world'

export async function throwAwayAction(batchId: string): Promise<void> {
  const member = await requireMember('bar:make', batchId)
  // gone already is what was wanted
  await throwAway(theWorld(), member, batchId, canDo(member, 'recipe:read'))
  redirect('/bar')
}
