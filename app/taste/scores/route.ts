import { openDoor } from '@/lib/auth/guard'
import { ScoreForm } from '@/lib/forms/score-form'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { theWorld } from '@/lib/tasks/world'
import { holderOf } from '../holder'
import { guardFaults } from '../guard-faults'
import { readMessage } from '../read-message'
import { jsonReply } from '../respond'
import { refuse } from '../say'

export const POST = guardFaults(async (request: Request) => {
  openDoor('the seat cookie is the key; the task asks for it in its own transaction')
  const score = await readMessage(request, ScoreForm)
  if (score instanceof Response) return score
  const outcome = await storeScore(theWorld(), await holderOf(request), score)
  return outcome.ok ? jsonReply({ key: score.key, ...outcome.value }) : refuse(outcome.reason, score.key)
})
