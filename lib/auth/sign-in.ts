import 'server-only'
import { findBrake, noteTry, releaseBrake, sweepBrakes, takeBackTry, type Brake } from '@/lib/db/brakes'
import { findEarlierRecord, findSignInRecord, type SignInRecord } from '@/lib/db/people'
import type { Db, Tx } from '@/lib/db/engine/client'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { passwordMatches, spendACheck, withATurn } from './password'

/** Tries without a wait, and the longest wait. */
interface Pace {
  readonly free: number
  readonly longestSeconds: number
}

const onOneAccount: Pace = { free: 5, longestSeconds: 15 * 60 }
/** Several people may come from one address: through a proxy that PROXY does not name, everybody does. */
const onAnyAccount: Pace = { free: 30, longestSeconds: 60 }
const forgetAfterMs = 24 * 60 * 60 * 1000

/** After the last free failure each further one doubles the wait: 15 s, 30 s, … up to the longest. */
export function waitSeconds(failures: number, pace: Pace = onOneAccount): number {
  return failures < pace.free ? 0 : Math.min(15 * 2 ** (failures - pace.free), pace.longestSeconds)
}

/** Longer than any address (RFC 5321, 4.5.3.1) and any password that could be chosen here: nobody's, and not worth a row. */
const longest = { email: 254, password: 200 }

/** Who asks to be let in, before anybody knows who it is. */
export interface Asker {
  /** network address; the door before the pages lets through none but the true one */
  readonly address: string
  /** a name for the browser, where this person signed in on it before; null for any other */
  knownAs(record: SignInRecord): string | null
}

export type SignInRefusal = 'wrong' | 'wait' | 'busy'

/**
 * Checks an address and a password. Tries are counted for the account and the network address together, so that nobody far
 * off keeps its owner out; a browser where its owner signed in before is counted by itself. Whoever must wait is refused
 * without looking at the password. A try is counted before it is looked at, so that many at once are counted one by one.
 */
export const checkSignIn = checkedBy(findSignInRecord)

/** The same for somebody who left and comes back: under the same brakes, whether or not they work here. */
export const checkEarlier = checkedBy(findEarlierRecord)

type Check = (
  db: Db,
  now: Date,
  asker: Asker,
  typedEmail: string,
  password: string,
) => Promise<Result<SignInRecord, SignInRefusal>>

function checkedBy(find: typeof findSignInRecord): Check {
  return async (db, now, asker, typedEmail, password) => {
    const email = typedEmail.trim().toLowerCase()
    if (email.length > longest.email || password.length > longest.password) return no('wrong')
    const turn = await withATurn(async (): Promise<Result<SignInRecord, SignInRefusal>> => {
      const record = await find(db, email)
      const known = record && asker.knownAs(record)
      const own = { email, asker: known ?? asker.address }
      const any = known ? null : { email: '', asker: asker.address }
      const counted = await countTry(db, now, own, any)
      if (!counted.ok) return counted
      const matches = record ? await passwordMatches(record.passwordHash, password) : await spendACheck(password)
      if (!record || !matches) return no('wrong')
      await releaseBrake(db, own)
      if (any) await takeBackTry(db, any)
      return ok(record)
    })
    return turn.ok ? turn.value : turn
  }
}

function countTry(db: Db, now: Date, own: Brake, any: Brake | null): Promise<Result<null, 'wait'>> {
  return inTransaction({ db }, async (tx) => {
    await sweepBrakes(tx, new Date(now.getTime() - forgetAfterMs))
    const brakes = any ? [[own, onOneAccount] as const, [any, onAnyAccount] as const] : [[own, onOneAccount] as const]
    for (const [brake] of brakes) {
      const seconds = await secondsLeft(tx, now, brake)
      if (seconds > 0) return no('wait', { seconds: String(seconds) })
    }
    for (const [brake, pace] of brakes) {
      const failures = ((await findBrake(tx, brake))?.failures ?? 0) + 1
      const wait = waitSeconds(failures, pace)
      await noteTry(tx, brake, {
        failures,
        lastAt: now,
        lockedUntil: wait ? new Date(now.getTime() + wait * 1000) : null,
      })
    }
    return ok(null)
  })
}

async function secondsLeft(tx: Tx, now: Date, brake: Brake): Promise<number> {
  const until = (await findBrake(tx, brake))?.lockedUntil
  return until && until > now ? Math.ceil((until.getTime() - now.getTime()) / 1000) : 0
}
