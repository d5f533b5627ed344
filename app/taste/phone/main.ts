import type { SeatState } from '@/lib/panel/blind'
import { el } from './dom'
import { openOtherTabs } from './other-tabs'
import { openOutbox } from './outbox'
import { ask, postParcel } from './post'
import { createSender } from './sender'
import { openSession, type Frame, type Memory } from './session'

const memory: Memory = keptInTab()

async function main(): Promise<void> {
  const block = document.getElementById('state')
  if (!block) return
  const state = JSON.parse(block.textContent ?? '') as SeatState
  const outbox = await openOutbox()
  const after = (ms: number, then: () => void) => {
    const timer = setTimeout(then, ms)
    return () => clearTimeout(timer)
  }
  const session = openSession(state, {
    frame: makeFrame(),
    outbox,
    memory,
    others: openOtherTabs(state.sitting),
    makeSender: (hooks) =>
      createSender({
        outbox,
        sitting: state.sitting,
        post: postParcel,
        after,
        chance: Math.random,
        ...hooks,
      }),
    fetchState: () => ask<SeatState>('/taste/state', 'get', (reply) => 'cups' in reply),
    passOn: () => ask<{ next: string }>('/taste/pass', 'post', (reply) => 'next' in reply),
    after,
    go: (path) => location.assign(path),
  })
  await session.begin()
  const wake = () => void session.wake()
  addEventListener('online', wake)
  addEventListener('pageshow', (event) => event.persisted && wake())
  document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && wake())
}

function makeFrame(): Frame {
  const frame = {
    where: el('div', { class: 'where' }),
    told: el('p', { class: 'told', role: 'alert' }),
    ask: el('div', { class: 'ask' }),
    stage: el('div', { class: 'stage' }),
    saved: el('p', { class: 'saved', role: 'status' }),
    press: el('div', { class: 'press' }),
  }
  const side = el('div', { class: 'side' }, frame.where, frame.ask)
  const bar = el('div', { class: 'bar' }, frame.told, frame.saved, frame.press)
  document.getElementById('phone')?.replaceChildren(el('main', { class: 'phone' }, side, frame.stage, bar))
  return frame
}

/** sessionStorage, or nothing where the browser forbids it: then a reload starts the cup's questions anew. */
function keptInTab(): Memory {
  const here = new Map<string, string>()
  return {
    get(name) {
      try {
        return sessionStorage.getItem(name)
      } catch {
        return here.get(name) ?? null
      }
    },
    set(name, value) {
      try {
        sessionStorage.setItem(name, value)
      } catch {
        here.set(name, value)
      }
    },
  }
}

void main()
