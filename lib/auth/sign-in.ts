import 'server-only'
import { clearBrake, findBrake, findSignInRecord, noteFailedSignIn, type SignInRecord } from '@/lib/db/people'
import type { Db } from '@/lib/db/client'
import { no, ok, type Result } from '@/lib/base/result'
import { passwordMatches, spendACheck } from './password'

const freeTries = 5
const longestWaitSeconds = 15 * 60
const forgetAfterMs = 24 * 60 * 60 * 1000

/** After the fifth failure each further one doubles the wait: 15 s, 30 s, … up to a quarter of an hour. */
export function waitSeconds(failures: number): number {
  return failures < freeTries ? 0 : Math.min(15 * 2 ** (failures - freeTries), longestWaitSeconds)
}

/** Checks an address and a password. A locked address is refused without looking at the password. */
export async function checkSignIn(
  db: Db,
  now: Date,
  typedEmail: string,
  password: string,
): Promise<Result<SignInRecord, 'wrong' | 'wait'>> {
  const email = typedEmail.trim().toLowerCase()
  const brake = await findBrake(db, email)
  if (brake?.lockedUntil && brake.lockedUntil > now) {
    const seconds = Math.ceil((brake.lockedUntil.getTime() - now.getTime()) / 1000)
    return no('wait', { seconds: String(seconds) })
  }
  const record = await findSignInRecord(db, email)
  const matches = record ? await passwordMatches(record.passwordHash, password) : await spendACheck(password)
  if (record && matches) {
    if (brake) await clearBrake(db, email)
    return ok(record)
  }
  const stale = !brake || now.getTime() - brake.lastAt.getTime() > forgetAfterMs
  const failures = stale ? 1 : brake.failures + 1
  const wait = waitSeconds(failures)
  await noteFailedSignIn(db, email, now, failures, wait ? new Date(now.getTime() + wait * 1000) : null)
  return no('wrong')
}
