import 'server-only'
import { hashToken } from '@/lib/auth/link-token'
import { addLink } from '@/lib/db/links'
import { setUpHouse } from './set-up-house'
import type { World } from '../world'

export interface DemoSignIn {
  readonly email: string
  readonly password: string
}

/** Founds the demo café on an empty, throw-away database. The password is new each time and is printed once. */
export async function foundDemoHouse(world: World): Promise<DemoSignIn> {
  const token = world.token()
  const now = world.now()
  await addLink(world.db, {
    id: world.id(),
    kind: 'setup',
    tokenHash: hashToken(token),
    cafeId: null,
    role: null,
    email: null,
    createdAt: now,
    expiresAt: new Date(now.getTime() + 60_000),
  })
  const signIn = { email: 'mara@ferrysteps.example', password: world.token().slice(0, 12) }
  const founded = await setUpHouse(world, token, {
    ...signIn,
    name: 'Mara',
    cafeName: 'Ferry Steps',
    currency: 'EUR',
    allergenList: 'eu',
    start: 'demo',
  })
  if (!founded.ok) throw new RangeError(`the demo house was refused: ${founded.reason}`)
  return signIn
}
