import type { Metadata } from 'next'
import { openDoor } from '@/lib/auth/guard'
import { Door } from '@/app/ui/door'
import { ButtonLink } from '@/app/ui/button'

export const metadata: Metadata = { title: 'Closed while you serve' }

export default function NotWhileServingPage() {
  openDoor('it says the same to everybody')
  return (
    <Door
      title="Closed while you serve"
      words="You opened the serving list of a panel that pours this. Until that panel is over, cards and batches of its trials are closed to you, those of house recipes aside: who knows the jugs does not know what is in them. Somebody else can make them."
    >
      <ButtonLink href="/panels">To the panels</ButtonLink>
    </Door>
  )
}
