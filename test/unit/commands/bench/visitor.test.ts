import { once } from 'node:events'
import { createServer, type Server } from 'node:http'
import type { Socket } from 'node:net'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { Visitor } from '@/lib/commands/bench/visitor'

let server: Server
let address: string

/** Closes a kept-alive connection at the moment it is used again, as a server does whose patience has just run out. */
beforeEach(async () => {
  const used = new WeakSet<Socket>()
  server = createServer((request, response) => {
    if (used.has(request.socket)) return void request.socket.destroy()
    used.add(request.socket)
    response.end('here')
  }).listen(0, '127.0.0.1')
  await once(server, 'listening')
  const at = server.address()
  address = typeof at === 'object' && at !== null ? `http://127.0.0.1:${at.port}` : ''
})

afterEach(() => {
  server.close()
})

test('one question after another is answered, though the server closes what was kept open', async () => {
  const visitor = new Visitor(address)
  for (let ask = 0; ask < 5; ask++) expect(await (await visitor.ask('/')).text()).toBe('here')
  expect(await (await visitor.post('/', { name: 'Ana' })).text()).toBe('here')
})
