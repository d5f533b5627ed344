'use client'

import { useActionState } from 'react'
import { ActButton } from '@/app/ui/act-button'
import { Button } from '@/app/ui/button'
import { LinkToHandOn } from '@/app/ui/copy-text'
import { Notice } from '@/app/ui/notice'
import { endHomeLinkAction, makeHomeLinkAction } from '../actions'

/** A link for whoever makes it at home. It is shown once, here: only its fingerprint is kept. */
export function LinkPart({
  recipeId,
  sheetId,
  hasLink,
  address,
}: {
  recipeId: string
  sheetId: string
  hasLink: boolean
  /** of this house, as everybody reaches it */
  address: string
}) {
  const [made, make, pending] = useActionState(async () => makeHomeLinkAction(recipeId, sheetId), null)
  return (
    <div className="grid max-w-prose gap-3">
      <p>
        Whoever holds the link reads this sheet and may answer it, until you withdraw it. Its allergens are read again
        each time, and it says when another house recipe has followed.
        {hasLink && ' There is a link; a new one ends it.'}
      </p>
      <div className="flex flex-wrap gap-3">
        <form action={make}>
          <Button type="submit" look="plain" disabled={pending}>
            {hasLink ? 'Make a new link' : 'Make a link'}
          </Button>
        </form>
        {hasLink && (
          <ActButton action={endHomeLinkAction.bind(null, recipeId, sheetId)} words="Withdraw the link" look="quiet" />
        )}
      </div>
      {made && 'problem' in made && (
        <Notice look="caution" live>
          {made.problem}
        </Notice>
      )}
      {made && 'path' in made && hasLink && (
        <Notice word="Link" live>
          Copy it now: it is not shown again.
          <LinkToHandOn address={`${address}${made.path}`} label="Link for home" />
        </Notice>
      )}
    </div>
  )
}
