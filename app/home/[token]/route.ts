import { guardFaults } from '@/app/taste/guard-faults'
import { openDoor } from '@/lib/auth/guard'
import { sendHome, showHome } from '../link-page'

type Context = { readonly params: Promise<{ readonly token: string }> }

export const GET = guardFaults(async (request: Request, { params }: Context) => {
  openDoor('the link to a sheet for home is the key')
  return showHome((await params).token, request)
})

export const POST = guardFaults(async (request: Request, { params }: Context) => {
  openDoor('the link to a sheet for home is the key')
  return sendHome((await params).token, request)
})
