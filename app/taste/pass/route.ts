import * as z from 'zod'
import { openDoor } from '@/lib/auth/guard'
import { passPhoneOn } from '@/lib/tasks/taste/pass-phone-on'
import { theWorld } from '@/lib/tasks/world'
import { holderOf } from '../holder'
import { guardFaults } from '../guard-faults'
import { readMessage } from '../read-message'
import { jsonReply } from '../respond'
import { refuse } from '../say'

export const POST = guardFaults(async (request: Request) => {
  openDoor('the seat cookie is the key; the task asks for it in its own transaction')
  const message = await readMessage(request, z.strictObject({}))
  if (message instanceof Response) return message
  const passed = await passPhoneOn(theWorld(), await holderOf(request))
  return passed.ok ? jsonReply({ next: `/join/${passed.value.joinToken}` }) : refuse(passed.reason)
})
