import { requireMember } from '@/lib/auth/guard'
import { Page } from '@/app/ui/page'

export default async function HomePage() {
  const member = await requireMember('home')
  return <Page title={`Good to see you, ${member.name}.`} />
}
