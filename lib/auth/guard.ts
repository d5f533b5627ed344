import 'server-only'
import { cache } from 'react'
import { notFound, redirect } from 'next/navigation'
import { isRole, may, type Right, type Role } from './rights'
import { currentMember } from './session'

/** Who is asking: everything a page or an action may know about its visitor. */
export interface Member {
  readonly userId: string
  readonly cafeId: string
  readonly name: string
  readonly email: string
  readonly role: Role
  /** the one this request came by */
  readonly sessionId: string
  readonly cafe: {
    readonly id: string
    readonly name: string
    readonly currency: string
    readonly currencyDigits: number
    readonly timeZone: string
    readonly allergenList: string
    readonly isDemo: boolean
  }
}

const longestKey = 200

/** One look-up a request, however many doors ask. */
export const findVisitor = cache(async (): Promise<Member | null> => {
  const found = await currentMember()
  if (!found || !isRole(found.role)) return null
  const { userId, name, email, role, sessionId, cafe } = found
  return { userId, name, email, role, sessionId, cafe, cafeId: cafe.id }
})

/**
 * Returns only a member who holds the right. Strangers are sent to sign in, members without it to a page that says so.
 *
 * @param keys  the ids and numbers an action was called with: they come from the browser whatever their type says, and
 *   an object in the place of an id is a filter to the database, true of many rows at once
 */
export async function requireMember(right: Right, ...keys: readonly (string | number)[]): Promise<Member> {
  const visitor = await findVisitor()
  if (!visitor) redirect('/sign-in')
  if (!may(visitor.role, right)) redirect('/not-allowed')
  if (!keys.every(isKey)) notFound()
  return visitor
}

function isKey(key: unknown): boolean {
  return typeof key === 'string' ? key.length > 0 && key.length <= longestKey : Number.isSafeInteger(key)
}

/** More than a column of whole numbers holds, on any engine, is the number of nothing. */
const largestNumber = 2_147_483_647

/** A number that an act was called with, once it is known to be one: what stands in its place may be words. */
export function numberKey(value: number): number {
  if (!Number.isSafeInteger(value) || Math.abs(value) > largestNumber) notFound()
  return value
}

/** For route handlers: a response to send in place of the answer, or the member. */
export async function memberOr(right: Right): Promise<Member | Response> {
  const visitor = await findVisitor()
  if (!visitor) return new Response('Please sign in first.', { status: 401 })
  if (!may(visitor.role, right)) return new Response('Your role does not allow this.', { status: 403 })
  return visitor
}

export function canDo(member: Member, right: Right): boolean {
  return may(member.role, right)
}

/**
 * Says out loud that a door is open to strangers, and why: the first line of a page or an action whose link is its key.
 * The layers test asks every door for a guard; this is the only way to have none.
 *
 * @param keys  what an action was called with, as for `requireMember`
 */
export function openDoor(_why: string, ...keys: readonly (string | number)[]): void {
  if (!keys.every(isKey)) notFound()
}
