import 'server-only'
import { cookies, headers } from 'next/headers'
import { publicAddress, type PublicAddress } from '@/lib/tasks/house/public-address'

export const addressCookie = 'sipwright-address'

/**
 * Where phones find this house, as far as this request can tell. Only the Host header itself is read, no forwarded one.
 * After an action's redirect Next asks itself for the next page, with a Host of its own; the browser's Origin, which it has
 * just compared with the true Host, is then the address the owner's browser used.
 */
export async function phoneAddress(): Promise<PublicAddress> {
  const [asked, kept] = [await headers(), await cookies()]
  return publicAddress(asked.get('host'), kept.get(addressCookie)?.value ?? null, asked.get('origin'))
}
