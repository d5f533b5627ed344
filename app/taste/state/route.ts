import { readSeatState } from '@/lib/tasks/read-seat-state'
import { theWorld } from '@/lib/tasks/world'
import { seatTokenOf } from '../cookies'
import { guardFaults } from '../guard-faults'
import { jsonReply } from '../respond'
import { refuse } from '../say'

export const GET = guardFaults(async (request: Request) => {
  const state = await readSeatState(theWorld(), seatTokenOf(request))
  return state.ok ? jsonReply(state.value) : refuse(state.reason)
})
