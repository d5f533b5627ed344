import 'server-only'
import { cookies, headers } from 'next/headers'
import Bowser from 'bowser'
import { servesHttps, theEnvironment } from '@/lib/base/env'
import type { SignInRecord } from '@/lib/db/people'
import { knownAs, withMark } from './known-browser'
import type { Asker } from './sign-in'

const YEAR_SECONDS = 365 * 86_400
const marksCookie = () => (servesHttps() ? '__Host-known-browser' : 'known-browser')
/** `npm start` makes one where none is set. */
const secret = () => theEnvironment().authSecret ?? ''

export async function readAsker(): Promise<Asker> {
  const [sent, kept] = await Promise.all([headers(), cookies()])
  const marks = kept.get(marksCookie())?.value
  return {
    address: sent.get('x-forwarded-for') ?? 'unknown',
    knownAs: (record) => knownAs(marks, record, secret()),
  }
}

/** "Firefox on Linux": for somebody to know their own sessions by. */
export async function readBrowser(): Promise<string> {
  const agent = (await headers()).get('user-agent')
  if (!agent) return 'a browser that does not say which'
  const { browser, os } = Bowser.parse(agent.slice(0, 500))
  const name = browser.name || 'a browser that does not say which'
  return os.name ? `${name} on ${os.name}` : name
}

/** Leaves a mark on the browser where this person has just signed in. */
export async function markBrowser(record: SignInRecord): Promise<void> {
  const kept = await cookies()
  kept.set(marksCookie(), withMark(kept.get(marksCookie())?.value, record, secret()), {
    path: '/',
    maxAge: YEAR_SECONDS,
    httpOnly: true,
    sameSite: 'strict',
    secure: servesHttps(),
  })
}
