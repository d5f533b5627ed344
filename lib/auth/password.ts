import 'server-only'
import { hash, verify } from '@node-rs/argon2'

// OWASP password storage cheat sheet (2024): argon2id, 19 MiB, 2 passes, 1 lane.
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 }

export function hashPassword(password: string): Promise<string> {
  return hash(password, cost)
}

export function passwordMatches(passwordHash: string, password: string): Promise<boolean> {
  return verify(passwordHash, password)
}

/** Spends the time of a check when there is no account, so that the answer's delay does not tell which addresses exist. */
export async function spendACheck(password: string): Promise<false> {
  await hash(password, cost)
  return false
}
