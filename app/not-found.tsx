import type { Metadata } from 'next'
import { Door } from '@/app/ui/door'
import { ButtonLink } from '@/app/ui/button'

export const metadata: Metadata = { title: 'Not here' }

export default function NotFoundPage() {
  return (
    <Door title="Nothing is kept at this address" words="The link may be old, or it belongs to another café.">
      <ButtonLink href="/">Home</ButtonLink>
    </Door>
  )
}
