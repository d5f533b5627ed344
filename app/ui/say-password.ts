import type { PasswordRefusal } from '@/lib/tasks/team/new-password'

/** Why a password that was chosen is not taken. */
export const sayPassword: Record<PasswordRefusal, string> = {
  guessable: 'This is among the first that somebody would try. A few unrelated words do well.',
  busy: 'Several people are signing in just now. Nothing is lost: send it again in a moment.',
}
