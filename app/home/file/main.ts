/**
 * What the file for home carries: it asks nothing of any network, keeps nothing, and writes what was filled in out as a text to
 * copy. The page stands without it.
 */
import { writeHomeAnswer, type HomeAnswerText } from '@/lib/forms/home-answer-text'

const KEY_BYTES = 16
const NOTHING_SAID = 'Say how you liked it, or what you changed, or anything else.'

const newKey = () =>
  Array.from(crypto.getRandomValues(new Uint8Array(KEY_BYTES)), (byte) => byte.toString(16).padStart(2, '0')).join('')

/** The last one that was written out: said otherwise it is another answer. */
let last: { readonly said: string; readonly key: string } | null = null

function answerIn(form: HTMLFormElement): { readonly answer: Omit<HomeAnswerText, 'key'>; readonly words: string } {
  const typed = new FormData(form)
  const text = (name: string) => String(typed.get(name) ?? '')
  const chosen = form.querySelector<HTMLInputElement>('input[name="liking"]:checked')
  const liking = chosen && chosen.value !== '' ? Number(chosen.value) : null
  return {
    answer: {
      mark: form.dataset['mark'] ?? '',
      liking,
      changed: text('changed'),
      further: text('further'),
      name: text('name'),
    },
    words: chosen?.dataset['words'] ?? '',
  }
}

function writeOut(form: HTMLFormElement, out: HTMLTextAreaElement): boolean {
  const { answer, words } = answerIn(form)
  if (answer.liking === null && answer.changed.trim() === '' && answer.further.trim() === '') return false
  const said = JSON.stringify(answer)
  if (last?.said !== said) last = { said, key: newKey() }
  out.value = writeHomeAnswer({ ...answer, key: last.key }, words)
  return true
}

async function copy(out: HTMLTextAreaElement): Promise<string> {
  out.select()
  try {
    await navigator.clipboard.writeText(out.value)
    return 'Copied. Send it to the café however you like.'
  } catch {
    const isCopied = document.execCommand('copy')
    return isCopied
      ? 'Copied. Send it to the café however you like.'
      : 'It is marked now: copy it as you copy any text, and send it to the café.'
  }
}

function start(): void {
  const form = document.querySelector('form')
  const out = document.querySelector<HTMLTextAreaElement>('#text')
  const outside = document.querySelector<HTMLElement>('#out')
  const problem = document.querySelector<HTMLElement>('#problem')
  const told = document.querySelector<HTMLElement>('#told')
  if (!form || !out || !outside || !problem || !told) return
  form.hidden = false
  form.addEventListener('submit', (event) => {
    event.preventDefault()
    const isWritten = writeOut(form, out)
    problem.textContent = isWritten ? '' : NOTHING_SAID
    outside.hidden = !isWritten
    told.textContent = ''
    if (isWritten) out.focus()
    else form.querySelector<HTMLElement>('textarea')?.focus()
  })
  document.querySelector('#copy')?.addEventListener('click', () => {
    void copy(out).then((words) => (told.textContent = words))
  })
}

start()
