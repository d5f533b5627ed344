import { enterDoor, showDoor } from '@/app/join/door'
import { guardFaults } from '@/app/taste/guard-faults'

type Context = { readonly params: Promise<{ readonly token: string }> }

export const GET = guardFaults(async (request: Request, { params }: Context) =>
  showDoor({ kind: 'join', token: (await params).token }, request),
)

export const POST = guardFaults(async (request: Request, { params }: Context) =>
  enterDoor({ kind: 'join', token: (await params).token }, request),
)
