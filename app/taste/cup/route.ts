import { openDoor } from '@/lib/auth/guard'
import { CupForm, type CupMessage } from '@/lib/forms/score-form'
import { lockServing } from '@/lib/tasks/taste/lock-serving'
import { markCodeSeen } from '@/lib/tasks/taste/mark-code-seen'
import { skipServing } from '@/lib/tasks/taste/skip-serving'
import { storeComment } from '@/lib/tasks/taste/store-comment'
import { theWorld } from '@/lib/tasks/world'
import { holderOf } from '../holder'
import { guardFaults } from '../guard-faults'
import { readMessage } from '../read-message'
import { jsonReply } from '../respond'
import { refuse } from '../say'

export const POST = guardFaults(async (request: Request) => {
  openDoor('the seat cookie is the key; the task asks for it in its own transaction')
  const message = await readMessage(request, CupForm)
  if (message instanceof Response) return message
  const outcome = await actOn(message, await holderOf(request))
  return outcome.ok ? jsonReply({ key: message.key, ...outcome.value }) : refuse(outcome.reason, message.key)
})

function actOn(message: CupMessage, browser: string | null) {
  switch (message.act) {
    case 'code-seen':
      return markCodeSeen(theWorld(), browser, message)
    case 'lock':
      return lockServing(theWorld(), browser, message)
    case 'skip':
      return skipServing(theWorld(), browser, message)
    case 'comment':
      return storeComment(theWorld(), browser, message)
  }
}
