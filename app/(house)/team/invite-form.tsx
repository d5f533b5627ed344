'use client'

import { useState } from 'react'
import { ActForm, type FormAnswer } from '@/app/ui/act-form'
import { SelectField, TextField } from '@/app/ui/field'
import { Notice } from '@/app/ui/notice'
import { inviteAction } from './actions'
import { roleChoices } from './rights-table'

/** The link is shown once, here: only its fingerprint is kept. */
export function InviteForm() {
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
        <TextField name="email" label="For whom (a note to yourself)" />
      </ActForm>
      {path && (
        <Notice word="Invitation" live>
          Send this link to them. It works once, for a week, and is not shown again.
          <input
            readOnly
            aria-label="Invitation link"
            value={`${window.location.origin}${path}`}
            className="mt-2 block min-h-11 w-full rounded border border-edge bg-paper px-3"
            onFocus={(event) => event.currentTarget.select()}
          />
        </Notice>
      )}
    </div>
  )
}
