import { noticePage } from '@/app/join/notice'
import { guardFaults } from '@/app/taste/guard-faults'
import { html } from '@/app/taste/html'
import { pageReply } from '@/app/taste/respond'
import { openDoor } from '@/lib/auth/guard'
import { reachTry } from '@/lib/tasks/taste/reach-try'
import { theWorld } from '@/lib/tasks/world'

type Context = { readonly params: Promise<{ readonly token: string }> }

export const GET = guardFaults(async (_request: Request, { params }: Context) => {
  openDoor('the try-out address is the key')
  const reached = await reachTry(theWorld(), (await params).token)
  if (!reached.ok) return noticePage('not-there')
  return pageReply(
    'Reached',
    html`<main class="sheet">
      <h1>Reached: this phone can take part</h1>
      <p>It has found the café’s computer. Tasters on the same network can use the panel’s code.</p>
      <p>You may close this page.</p>
    </main>`,
  )
})
