import 'server-only'
import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto'
import type { SignInRecord } from '@/lib/db/people'

/**
 * A browser where somebody signed in before shows a mark of it, so that a stranger's wrong guesses do not keep its owner out.
 * The mark names no one, opens nothing, and is worth nothing after a new password.
 */
const MOST = 5
const mark = /^([\w-]{16})-([\w-]{43})$/

/**
 * @param marks  as the cookie holds them
 * @returns a name for this browser, under which its own tries are counted; null for any other
 */
export function knownAs(marks: string | undefined, record: SignInRecord, secret: string): string | null {
  for (const one of (marks ?? '').split('.').slice(0, MOST)) {
    const [, browser, seal] = mark.exec(one) ?? []
    if (browser && seal && isSame(seal, sealOf(browser, record, secret))) return `browser ${browser}`
  }
  return null
}

/** The marks with one for this person in front: several people may sign in on the café's computer. */
export function withMark(marks: string | undefined, record: SignInRecord, secret: string): string {
  const browser = randomBytes(12).toString('base64url')
  const others = (marks ?? '').split('.').filter((one) => {
    const [, of, seal] = mark.exec(one) ?? []
    return of && seal && !isSame(seal, sealOf(of, record, secret))
  })
  return [`${browser}-${sealOf(browser, record, secret)}`, ...others].slice(0, MOST).join('.')
}

function sealOf(browser: string, { userId, passwordHash }: SignInRecord, secret: string): string {
  return createHmac('sha256', secret)
    .update(JSON.stringify(['known browser', browser, userId, passwordHash]))
    .digest('base64url')
}

function isSame(one: string, other: string): boolean {
  return one.length === other.length && timingSafeEqual(Buffer.from(one), Buffer.from(other))
}
