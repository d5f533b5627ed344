import 'server-only'
import { clearBrake, findBrake, findSignInRecord, noteFailedSignIn, type SignInRecord } from '@/lib/db/people'
import type { Db } from '@/lib/db/engine/client'
import { no, ok, type Result } from '@/lib/base/result'
import { passwordMatches, spendACheck } from './password'

const freeTries = 5
const longestWaitSeconds = 15 * 60
const forgetAfterMs = 24 * 60 * 60 * 1000

/** After the fifth failure each further one doubles the wait: 15 s, 30 s, … up to a quarter of an hour. */
export function waitSeconds(failures: number): number {
  return failures < freeTries ? 0 : Math.min(15 * 2 ** (failures - freeTries), longestWaitSeconds)
}

/** Longer than any address (RFC 5321, 4.5.3.1) and any password that could be chosen here: nobody's, and not worth a row. */
const longest = { email: 254, password: 200 }

/**
 * Checks an address and a password. A locked address is refused without looking at the password. A try is counted before
 * it is looked at, so that many at once are counted one by one.
 */
export async function checkSignIn(
  db: Db,
  now: Date,
  typedEmail: string,
  password: string,
): Promise<Result<SignInRecord, 'wrong' | 'wait'>> {
  const email = typedEmail.trim().toLowerCase()
  if (email.length > longest.email || password.length > longest.password) return no('wrong')
  const counted = await countTry(db, now, email)
  if (!counted.ok) return counted
  const record = await findSignInRecord(db, email)
  const matches = record ? await passwordMatches(record.passwordHash, password) : await spendACheck(password)
  if (!record || !matches) return no('wrong')
  await clearBrake(db, email)
  return ok(record)
}

function countTry(db: Db, now: Date, email: string): Promise<Result<null, 'wait'>> {
  return db.$transaction(async (tx) => {
    const brake = await findBrake(tx, email)
    if (brake?.lockedUntil && brake.lockedUntil > now) {
      const seconds = Math.ceil((brake.lockedUntil.getTime() - now.getTime()) / 1000)
      return no('wait', { seconds: String(seconds) })
    }
    const stale = !brake || now.getTime() - brake.lastAt.getTime() > forgetAfterMs
    const failures = stale ? 1 : brake.failures + 1
    const wait = waitSeconds(failures)
    await noteFailedSignIn(tx, email, now, failures, wait ? new Date(now.getTime() + wait * 1000) : null)
    return ok(null)
  })
}
