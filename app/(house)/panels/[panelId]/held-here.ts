import { cookies } from 'next/headers'
import { SEAT, tokenOf } from '@/app/taste/cookies'

/** The seat token of this browser, if it holds a taster's seat: the house's pages and the taster's run in one browser. */
export async function heldHere(): Promise<string | null> {
  return tokenOf((await cookies()).get(SEAT)?.value)
}
