'use server'

import { redirect } from 'next/navigation'
import { requireMember } from '@/lib/auth/guard'
import { queryOfMake } from '@/lib/forms/on-shelf-form'
import { keepCounts } from '@/lib/tasks/bar/keep-counts'
import { theWorld } from '@/lib/tasks/world'

/** Keeps what was counted and shows the same page again, with all that was typed: a slip stands beside its field there. */
export async function keepCountsAction(trialId: string, form: FormData): Promise<void> {
  const member = await requireMember('recipe:write', trialId)
  // an act may be called with anything in the place of its form
  const typed = queryOfMake(form instanceof FormData ? form : [])
  const kept = await keepCounts(theWorld(), member, trialId, typed)
  const said = kept.ok ? String(kept.value) : kept.reason
  redirect(`/trials/${trialId}/make?${new URLSearchParams({ ...typed, kept: said }).toString()}`)
}
