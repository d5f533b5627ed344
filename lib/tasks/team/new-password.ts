import 'server-only'
import { isGuessable } from '@/lib/auth/guessable'
import { hashInTurn } from '@/lib/auth/password'
import { no, type Result } from '@/lib/base/result'

export type PasswordRefusal = 'guessable' | 'busy'

/**
 * The hash of a password that somebody has chosen. It costs more than all the rest of an act: make it for who has a link.
 *
 * @param known  what anybody may know of its owner: name, address, café
 */
export async function hashChosen(password: string, known: readonly string[]): Promise<Result<string, PasswordRefusal>> {
  return isGuessable(password, known) ? no('guessable') : hashInTurn(password)
}
