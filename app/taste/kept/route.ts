import { forgetKept, showKept } from '@/app/join/kept-page'
import { openDoor } from '@/lib/auth/guard'
import { guardFaults } from '../guard-faults'
import { seatTokenOf } from '../cookies'

function ownSeat(request: Request) {
  const browser = seatTokenOf(request)
  return browser === null ? null : ({ by: 'phone', browser } as const)
}

export const GET = guardFaults(async (request: Request) => {
  openDoor('the seat cookie is the key')
  return showKept(ownSeat(request), request)
})

export const POST = guardFaults(async (request: Request) => {
  openDoor('the seat cookie is the key')
  return forgetKept(ownSeat(request), request, '/taste/kept')
})
