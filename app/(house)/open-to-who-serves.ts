import 'server-only'
import { redirect } from 'next/navigation'
import type { Member } from '@/lib/auth/guard'
import { isServed, type OfPanel } from '@/lib/tasks/bar/served'
import { theWorld } from '@/lib/tasks/world'

/** Sends who serves an open panel away from cards and batches of its trials. */
export async function openToWhoServes(member: Member, of: OfPanel): Promise<void> {
  if (await isServed(theWorld(), member, of)) redirect('/not-while-serving')
}
