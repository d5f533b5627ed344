'use server'

import { revalidatePath } from 'next/cache'
import { numberKey, requireMember } from '@/lib/auth/guard'
import { readField } from '@/lib/forms/read-form'
import { forgetTaster } from '@/lib/tasks/privacy/forget-taster'
import { theForgottenMarks } from '@/lib/tasks/privacy/the-marks'
import { theWorld } from '@/lib/tasks/world'
import type { FormAnswer } from '@/app/ui/act-form'

export async function forgetTasterAction(
  panelId: string,
  seat: number,
  _before: FormAnswer,
  form: FormData,
): Promise<FormAnswer> {
  const member = await requireMember('panel:run', panelId, numberKey(seat))
  // A seat without a taster has nothing to forget: the page says so when it is drawn again.
  await forgetTaster(theWorld(), theForgottenMarks(), member, {
    panelId,
    seat,
    words: readField(form, 'words') === 'on',
  })
  revalidatePath(`/panels/${panelId}/tasters/${seat}`)
  return null
}
