import { openDoor } from '@/lib/auth/guard'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { theWorld } from '@/lib/tasks/world'
import { noticePage } from '../join/notice'
import { holderOf } from './holder'
import { guardFaults } from './guard-faults'
import { html, jsonBlock } from './html'
import { GONE, sayGone } from './phone/words'
import { pageReply } from './respond'

/** The tasting page: the state goes with it, and the script draws one thing at a time. */
export const GET = guardFaults(async (request: Request) => {
  openDoor('the seat cookie is the key; the task asks for it in its own transaction')
  const state = await readSeatState(theWorld(), await holderOf(request))
  if (!state.ok) return noticePage(state.reason)
  const { seat, title, gone } = state.value

  return pageReply(
    `Seat ${seat}`,
    html`<div id="phone">
        <main class="sheet">
          <p class="over">${title}</p>
          <h1 class="seat">Seat ${seat}</h1>
          ${gone ? html`<p>${sayGone(GONE[gone])}</p>` : null}
          <noscript
            ><p>
              This page needs JavaScript to keep your answers when the connection is lost. Please allow it, or ask who
              serves for a paper sheet.
            </p></noscript
          >
        </main>
      </div>
      ${jsonBlock('state', state.value)}
      <script src="/taste/taste.js" defer></script>`,
  )
})
