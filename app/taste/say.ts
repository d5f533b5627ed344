import type { ServingRefusal } from '@/lib/tasks/taste/at-serving'
import type { ScoreRefusal } from '@/lib/tasks/taste/store-score'
import type { SetRefusal } from '@/lib/tasks/taste/at-set'
import type { SetAnswerRefusal } from '@/lib/tasks/taste/store-set-answer'
import { GONE, sayGone } from './phone/words'
import { jsonReply } from './respond'

type Refusal =
  ServingRefusal | ScoreRefusal | SetRefusal | SetAnswerRefusal | 'in-a-set' | 'answers-missing' | 'panel-closed'

/** What a phone is told when its message changes nothing. */
const SAY: Readonly<Record<Refusal, string>> = {
  'no-seat': 'This phone holds no seat. Scan the panel’s code to take one.',
  'seat-moved': 'This seat has moved to another phone. Go on there.',
  'phone-passed-on': 'This phone has been passed on. Scan the panel’s code to take the next seat.',
  'another-sitting': 'This phone has been passed on, and this page belongs to the seat before. Load it again.',
  'not-your-cup': 'This cup does not belong to your seat.',
  'in-a-set': 'This cup is answered together with others. Load the page again.',
  'not-your-set': 'These cups do not belong to your seat.',
  'no-such-answer': 'This is no answer to this question. Load the page again.',
  'no-such-attribute': 'This question is not asked in this panel.',
  'off-the-scale': 'This answer is not on the scale of this question. Load the page again.',
  locked: 'You have moved on from this cup, so its answers stay as they are.',
  'kept-late': 'The panel has closed. Your answer is kept, marked late, and does not count.',
  'panel-closed': 'The panel has closed. This came too late to be kept.',
  'answers-missing': 'An answer is still missing for this cup.',
  'on-paper': sayGone(GONE['on-paper']),
  'knows-too-much': sayGone(GONE['knows-too-much']),
  'set-aside': sayGone(GONE['set-aside']),
}

const STATUS: Partial<Readonly<Record<Refusal, number>>> = {
  'no-seat': 401,
  'seat-moved': 410,
  'phone-passed-on': 410,
  'on-paper': 410,
  'knows-too-much': 410,
  'set-aside': 410,
}

export function refuse(reason: Refusal, key?: string): Response {
  return jsonReply({ reason, words: SAY[reason], ...(key ? { key } : {}) }, STATUS[reason] ?? 409)
}
