import 'server-only'
import type { Db, Tx } from './client'
import { findFault } from './fault'

const MOST_TRIES = 3
const TIRED_AFTER_MS = 5000

/**
 * The one way to act: everything `act` writes stands, or nothing of it does.
 *
 * An act that found the database busy, or lost to another in the same instant, is begun anew, twice at most: nothing of the
 * first attempt stands then. So `act` may run more than once and changes nothing but rows of `tx`; what has to be the same
 * in every attempt is drawn before it. A wait that has already been long is not made longer. Any other fault is the
 * caller's, and so is a COMMIT nobody answered: whether it was done is not known, so it is not done again unasked.
 */
export async function inTransaction<Value>(at: { readonly db: Db }, act: (tx: Tx) => Promise<Value>): Promise<Value> {
  const begun = performance.now()
  for (let tried = 1; ; tried++) {
    try {
      return await at.db.$transaction(act)
    } catch (error) {
      const again = tried < MOST_TRIES && performance.now() - begun < TIRED_AFTER_MS
      if (!again || findFault(error)?.name !== 'busy') throw error
    }
  }
}
