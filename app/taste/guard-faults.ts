import { reportFault } from '@/lib/tasks/house/report-fault'
import { html } from './html'
import { jsonReply, pageReply } from './respond'

/**
 * When the machine fails, the phone gets calm words and a number to name, and nothing of what went wrong. A phone
 * keeps what it could not deliver and sends it again.
 */
export function guardFaults<Rest extends readonly unknown[]>(
  answer: (request: Request, ...rest: Rest) => Promise<Response>,
): (request: Request, ...rest: Rest) => Promise<Response> {
  return async (request, ...rest) => {
    try {
      return await answer(request, ...rest)
    } catch (error) {
      const id = reportFault(error)
      const words = `The café’s computer did not manage that (fault ${id}).`
      if (!(request.headers.get('accept') ?? '').includes('text/html'))
        return jsonReply({ reason: 'fault', words }, 503)
      return pageReply(
        'Not just now',
        html`<main class="sheet">
          <h1>Not just now</h1>
          <p>${words} Nothing you sent before is lost. Wait a moment and load this page again.</p>
        </main>`,
        { status: 503 },
      )
    }
  }
}
