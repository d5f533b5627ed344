'use client'

import { useActionState } from 'react'
import { Button } from '@/app/ui/button'
import { LinkToHandOn } from '@/app/ui/copy-text'
import { Notice } from '@/app/ui/notice'
import { endSharingAction, shareAction } from './actions'

/** Links for the team that show this result without names. Each is shown once, here: only its fingerprint is kept. */
export function SharePart({
  panelId,
  house,
  links,
}: {
  panelId: string
  /** the address of this house that phones can reach; null when there is none */
  house: string | null
  links: readonly { readonly id: string; readonly words: string }[]
}) {
  const [made, share, pending] = useActionState(async () => shareAction(panelId), null)
  return (
    <div className="grid max-w-prose gap-3">
      <p>
        Whoever holds a link reads this result without signing in, until you withdraw it: no names, no seats, no
        comments.
      </p>
      <form action={share}>
        <Button type="submit" look="plain" disabled={pending}>
          Make a link to read
        </Button>
      </form>
      {made && 'problem' in made && (
        <Notice look="caution" live>
          {made.problem}
        </Notice>
      )}
      {made && 'path' in made && (
        <Notice word="Link" live>
          Copy it now: it is not shown again.
          <LinkToHandOn address={`${house ?? window.location.origin}${made.path}`} label="Link to read" />
        </Notice>
      )}
      {links.length > 0 && (
        <ul aria-label="Links that are open" className="divide-y divide-line">
          {links.map(({ id, words }) => (
            <li key={id} className="flex flex-wrap items-center justify-between gap-4 py-2">
              <span>{words}</span>
              <form action={endSharingAction.bind(null, panelId, id)}>
                <Button type="submit" look="quiet">
                  Withdraw
                </Button>
              </form>
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}
