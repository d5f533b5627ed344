import { openDoor } from '@/lib/auth/guard'
import { SetForm, type SetMessage } from '@/lib/forms/score-form'
import { lockSet, skipSet } from '@/lib/tasks/taste/settle-set'
import { storeSetAnswer } from '@/lib/tasks/taste/store-set-answer'
import { theWorld } from '@/lib/tasks/world'
import { holderOf } from '../holder'
import { guardFaults } from '../guard-faults'
import { readMessage } from '../read-message'
import { jsonReply } from '../respond'
import { refuse } from '../say'

export const POST = guardFaults(async (request: Request) => {
  openDoor('the seat cookie is the key; the task asks for it in its own transaction')
  const message = await readMessage(request, SetForm)
  if (message instanceof Response) return message
  const outcome = await actOn(message, await holderOf(request))
  return outcome.ok ? jsonReply({ key: message.key, ...outcome.value }) : refuse(outcome.reason, message.key)
})

function actOn(message: SetMessage, browser: string | null) {
  switch (message.act) {
    case 'answer':
      return storeSetAnswer(theWorld(), browser, message)
    case 'lock':
      return lockSet(theWorld(), browser, message)
    case 'skip':
      return skipSet(theWorld(), browser, message)
  }
}
