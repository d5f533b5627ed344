'use client'

import { useState } from 'react'
import { ActForm, type FormAnswer } from '@/app/ui/act-form'
import { LinkToHandOn } from '@/app/ui/copy-text'
import { SelectField, TextField } from '@/app/ui/field'
import { Notice } from '@/app/ui/notice'
import { inviteAction } from './actions'
import { roleChoices } from './role-choices'

/**
 * The link is shown once, here: only its fingerprint is kept.
 *
 * @param house  the address of this house that phones can reach; null when there is none
 */
export function InviteForm({ house }: { readonly house: string | null }) {
  const [path, setPath] = useState<string | null>(null)
  async function invite(_before: FormAnswer, form: FormData): Promise<FormAnswer> {
    const answer = await inviteAction(form)
    if ('path' in answer) {
      setPath(answer.path)
      return null
    }
    return answer.problem
  }
  return (
    <div className="grid max-w-md gap-4">
      <ActForm id="invite" action={invite} submit="Make an invitation link" submitLook="plain">
        <SelectField name="role" label="Role" choices={roleChoices} />
        <TextField name="email" label="For whom (a note to yourself)" help="Whoever has the link can use it." />
      </ActForm>
      {path && (
        <Notice word="Invitation" live>
          Send this link to them, or let them scan it. It works once, for a week, for whoever has it, and is not shown
          again.
          <LinkToHandOn address={`${house ?? window.location.origin}${path}`} label="Invitation link" />
        </Notice>
      )}
    </div>
  )
}
