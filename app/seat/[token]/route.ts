import { enterDoor, showDoor } from '@/app/join/door'
import { guardFaults } from '@/app/taste/guard-faults'
import { openDoor } from '@/lib/auth/guard'

type Context = { readonly params: Promise<{ readonly token: string }> }

export const GET = guardFaults(async (request: Request, { params }: Context) => {
  openDoor('the seat card is the key')
  return showDoor({ kind: 'card', token: (await params).token }, request)
})

export const POST = guardFaults(async (request: Request, { params }: Context) => {
  openDoor('the seat card is the key')
  return enterDoor({ kind: 'card', token: (await params).token }, request)
})
