import { forgetKept, showKept } from '@/app/join/kept-page'
import { guardFaults } from '@/app/taste/guard-faults'
import { openDoor } from '@/lib/auth/guard'

type Context = { readonly params: Promise<{ readonly token: string }> }

export const GET = guardFaults(async (request: Request, { params }: Context) => {
  openDoor('the seat card is the key')
  return showKept({ by: 'card', cardToken: (await params).token }, request)
})

export const POST = guardFaults(async (request: Request, { params }: Context) => {
  openDoor('the seat card is the key')
  const { token } = await params
  return forgetKept({ by: 'card', cardToken: token }, request, `/seat/${token}/kept`)
})
