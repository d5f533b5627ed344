import type { Metadata } from 'next'
import { openDoor } from '@/lib/auth/guard'
import { Door } from '@/app/ui/door'
import { ButtonLink } from '@/app/ui/button'

export const metadata: Metadata = { title: 'Not for your role' }

export default function NotAllowedPage() {
  openDoor('it says the same to everybody')
  return (
    <Door title="This is not for your role" words="An owner of the café can change your role on the team page.">
      <ButtonLink href="/">Back home</ButtonLink>
    </Door>
  )
}
