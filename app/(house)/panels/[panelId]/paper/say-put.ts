import type { PutRefusal } from '@/lib/tasks/pour/put-seat-on-paper'

/** Why a seat did not go to paper. */
export const sayPut: Record<PutRefusal, string> = {
  'no-such-seat': 'There is no such seat here.',
  finished: 'It has finished on its phone: every cup is scored or skipped there, and that stands.',
  barred: 'Its taster has opened the serving list, so it takes no more scores.',
  'set-aside': 'The house has set it aside, so it takes no more scores.',
}

export function findPutRefusal(word: string | undefined): PutRefusal | null {
  return (Object.keys(sayPut) as PutRefusal[]).find((reason) => reason === word) ?? null
}
