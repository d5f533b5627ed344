import { once } from 'node:events'
import { createServer, type Server } from 'node:net'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { checkPort } from '@/lib/commands/start/port.mjs'

let other: Server
let port: number
beforeEach(async () => {
  other = createServer().listen(0)
  await once(other, 'listening')
  const address = other.address()
  port = typeof address === 'object' && address !== null ? address.port : 0
})
afterEach(() => void other.close())

test('a port that is given back in a moment, as by a server that was just ended by force, is waited for', async () => {
  let moments = 0
  await checkPort(port, async () => {
    if (++moments === 3) await new Promise((resolve) => other.close(resolve))
  })
  expect(moments).toBe(3)
})

test('a port that somebody keeps is said to be used', async () => {
  await expect(checkPort(port, async () => undefined)).rejects.toThrow(`Port ${port} is used by another program`)
})
