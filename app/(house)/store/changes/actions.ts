'use server'

import { revalidatePath } from 'next/cache'
import { requireMember } from '@/lib/auth/guard'
import { readField } from '@/lib/forms/read-form'
import { lookAtChanges } from '@/lib/tasks/store/look-at-changes'
import { theWorld } from '@/lib/tasks/world'

export async function lookedAtAction(ingredientId: string, form: FormData): Promise<void> {
  const member = await requireMember('recipe:write', ingredientId)
  const shown = readField(form, 'changes').split(' ').slice(0, 200)
  await lookAtChanges(theWorld(), member, ingredientId, shown)
  revalidatePath('/store/changes')
}
