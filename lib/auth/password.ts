import 'server-only'
import { hash, verify } from '@node-rs/argon2'
import pLimit from 'p-limit'
import { no, ok, type Result } from '@/lib/base/result'

// OWASP password storage cheat sheet (2024): argon2id, 19 MiB, 2 passes, 1 lane.
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 }

/** A hash keeps a core busy for a twentieth of a second: two at a time leave phones and pages room. */
const inTurn = pLimit(2)
/** Who would stand further back is told to come again. */
const longestQueue = 8

/**
 * Does what hashes a password when its turn comes.
 *
 * @returns busy, at once, when too many wait already
 */
export async function withATurn<Value>(work: () => Promise<Value>): Promise<Result<Value, 'busy'>> {
  return inTurn.pendingCount >= longestQueue ? no('busy') : ok(await inTurn(work))
}

/** A hash of a new password, in its turn. */
export function hashInTurn(password: string): Promise<Result<string, 'busy'>> {
  return withATurn(() => hash(password, cost))
}

/** Only inside a turn. */
export function passwordMatches(passwordHash: string, password: string): Promise<boolean> {
  return verify(passwordHash, password)
}

/** Spends the time of a check when there is no account, so that the answer's delay does not tell which addresses exist. */
export async function spendACheck(password: string): Promise<false> {
  await hash(password, cost)
  return false
}
