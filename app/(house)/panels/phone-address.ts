import 'server-only'
import { cookies, headers } from 'next/headers'
import { publicAddress, type PublicAddress } from '@/lib/tasks/public-address'

export const addressCookie = 'sipwright-address'

/** Where phones find this house, as far as this request can tell. Only the Host header itself is read, no forwarded one. */
export async function phoneAddress(): Promise<PublicAddress> {
  const [asked, kept] = [await headers(), await cookies()]
  return publicAddress(asked.get('host'), kept.get(addressCookie)?.value ?? null)
}
