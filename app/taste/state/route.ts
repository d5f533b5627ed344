import { openDoor } from '@/lib/auth/guard'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { theWorld } from '@/lib/tasks/world'
import { holderOf } from '../holder'
import { guardFaults } from '../guard-faults'
import { jsonReply } from '../respond'
import { refuse } from '../say'

export const GET = guardFaults(async (request: Request) => {
  openDoor('the seat cookie is the key; the task asks for it in its own transaction')
  const state = await readSeatState(theWorld(), await holderOf(request))
  if (!state.ok) return refuse(state.reason)
  return state.value.gone ? refuse(state.value.gone) : jsonReply(state.value)
})
