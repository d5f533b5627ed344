import 'server-only'
import { ZxcvbnFactory } from '@zxcvbn-ts/core'
import { adjacencyGraphs, dictionary } from '@zxcvbn-ts/language-common'

/** zxcvbn's own scale: 3 is "safely unguessable, moderate protection from an offline attack", at least 10⁸ guesses. */
const wanted = 3
/** Guesses are counted in steps that grow with length; what is hard to guess so far is not easier with more behind it. */
const looked = 64

let guesser: ZxcvbnFactory | null = null

/**
 * Whether a password is among the first that would be tried: a common one, a keyboard's row, a repetition, a date, or made of
 * what everybody knows of its owner. Wheeler 2016, "zxcvbn: low-budget password strength estimation", USENIX Security.
 *
 * @param known  the owner's name and address, the café's name
 */
export function isGuessable(password: string, known: readonly string[]): boolean {
  guesser ??= new ZxcvbnFactory({ dictionary, graphs: adjacencyGraphs })
  return guesser.check(password.slice(0, looked), [...known]).score < wanted
}
