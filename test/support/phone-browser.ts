/** A taster's browser against the route handlers: keeps cookies, follows nothing by itself, remembers every byte it got. */
import { enterDoor, showDoor } from '@/app/join/door'
import { POST as postCup } from '@/app/taste/cup/route'
import { POST as postPass } from '@/app/taste/pass/route'
import { GET as getTaste } from '@/app/taste/route'
import { POST as postScore } from '@/app/taste/scores/route'
import { POST as postSet } from '@/app/taste/sets/route'
import { GET as getState } from '@/app/taste/state/route'
import type { Door } from '@/lib/tasks/taste/read-join'

export type Heard = { readonly what: string; readonly status: number; readonly head: string; readonly body: string }

const ORIGIN = 'http://cafe.test:3000'

/** @param address  of the network, as the door before the pages names it */
export function phoneBrowser(heard: Heard[] = [], address: string | null = null) {
  const cookies = new Map<string, string>()

  function ask(path: string, init: RequestInit = {}): Request {
    const cookie = [...cookies].map(([name, value]) => `${name}=${value}`).join('; ')
    const headers = new Headers(init.headers)
    if (cookie) headers.set('cookie', cookie)
    if (address !== null) headers.set('x-forwarded-for', address)
    return new Request(ORIGIN + path, { ...init, headers })
  }

  async function hear(what: string, response: Response): Promise<Heard & { json(): Record<string, unknown> }> {
    for (const line of response.headers.getSetCookie()) {
      const [name = '', value = ''] = line.split(';', 1)[0]?.split('=') ?? []
      cookies.set(name, value)
    }
    const head = [...response.headers].map(([name, value]) => `${name}: ${value}`).join('\n')
    const one = { what, status: response.status, head, body: await response.text() }
    heard.push(one)
    return { ...one, json: () => JSON.parse(one.body) as Record<string, unknown> }
  }

  const json = (path: string, body: unknown) =>
    ask(path, { method: 'POST', body: JSON.stringify(body), headers: { 'content-type': 'application/json' } })
  const form = (fields: Record<string, string>) => ({ method: 'POST', body: new URLSearchParams(fields) })

  return {
    heard,
    cookies,
    /** a request as this browser would send it, for the handlers that have no short name here */
    ask,
    hear,
    show: async (door: Door) => hear('door', await showDoor(door, ask('/join/x'))),
    enter: async (door: Door, fields: Record<string, string>) =>
      hear(`door ${fields.act}`, await enterDoor(door, ask('/join/x', form(fields)))),
    taste: async () => hear('taste', await getTaste(ask('/taste'))),
    state: async () => hear('state', await getState(ask('/taste/state'))),
    score: async (message: object) => hear('score', await postScore(json('/taste/scores', message))),
    cup: async (message: object) => hear('cup', await postCup(json('/taste/cup', message))),
    set: async (message: object) => hear('set', await postSet(json('/taste/sets', message))),
    passOn: async () => hear('pass', await postPass(json('/taste/pass', {}))),
    post: (path: string, body: string, type: string) =>
      ask(path, { method: 'POST', body, headers: { 'content-type': type } }),
  }
}

export const WILLING = { act: 'take', name: 'Ana', consent: 'yes', unaffected: 'yes', unseen: 'yes' }
