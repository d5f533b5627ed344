import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { createServer } from 'node:net'
import { gzipSync } from 'node:zlib'
import type { LaidHistory } from './history'
import { below, middleAndTail, plainly, type Measured } from './measure'
import { Visitor } from './visitor'

/** Starts the built app on a database of its own; `stop` ends it. */
export async function startHouse(databaseUrl: string): Promise<{ readonly address: string; stop(): Promise<void> }> {
  const port = await freePort()
  const env = {
    ...process.env,
    PORT: String(port),
    DATABASE_URL: databaseUrl,
    PUBLIC_URL: '',
    NODE_ENV: 'production' as const,
  }
  const child = spawn(process.execPath, ['lib/commands/start.mjs'], { env, stdio: ['ignore', 'pipe', 'inherit'] })
  let said = ''
  await new Promise<void>((resolve, reject) => {
    child.stdout.on('data', (bytes: Buffer) => {
      said += bytes.toString()
      if (said.includes('ready at')) resolve()
    })
    child.once('exit', (code) => reject(new Error(`the house ended with ${code}: ${said}`)))
  })
  return {
    address: `http://127.0.0.1:${port}`,
    stop: async () => {
      child.kill('SIGTERM')
      if (child.exitCode === null) await once(child, 'exit')
    },
  }
}

async function freePort(): Promise<number> {
  const probe = createServer().listen(0, '127.0.0.1')
  await once(probe, 'listening')
  const address = probe.address()
  probe.close()
  if (typeof address !== 'object' || address === null) throw new Error('there is no free port')
  return address.port
}

export async function benchPages(address: string, laid: LaidHistory): Promise<Measured[]> {
  const owner = new Visitor(address)
  await owner.signIn(laid.signIn.email, laid.signIn.password)
  const paths = {
    home: '/',
    panels: '/panels',
    recipes: '/recipes',
    recipe: `/recipes/${laid.recipeId}`,
    'why this one': `/recipes/${laid.recipeId}/why`,
    trial: `/trials/${laid.trialId}`,
    'panel result': `/panels/${laid.panelId}/result`,
    store: '/store',
  }
  const found: Measured[] = []
  for (const [name, path] of Object.entries(paths)) {
    const times: number[] = []
    for (let run = 0; run < 15; run++) {
      const began = performance.now()
      const answer = await owner.ask(path)
      await answer.text()
      if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`)
      if (run >= 3) times.push(performance.now() - began)
    }
    const { median, p95 } = middleAndTail(times)
    found.push(
      below('pages', `${name}, 500 closed panels behind it, median`, median, 'ms', 200, `p95 ${Math.round(p95)} ms`),
    )
  }
  return found
}

const phones = 60
const everyMs = 5000
const rounds = 5

/** Sixty phones join and each scores every five seconds; how soon is a score acknowledged? */
export async function benchPhones(address: string, joinPath: string): Promise<Measured[]> {
  const seated = await Promise.all(
    Array.from({ length: phones }, (_, at) => joinPanel(address, joinPath, `Taster ${at}`)),
  )
  const times: number[] = []
  await Promise.all(
    seated.map(async ({ visitor, state }, at) => {
      await pause((at * everyMs) / phones)
      for (let round = 0; round < rounds; round++) {
        const cup = state.cups[0]
        const message = {
          sitting: state.sitting,
          code: cup?.code,
          attribute: 0,
          value: 1 + ((at + round) % 9),
          revision: round + 1,
          key: `bench-${at}-${round}-key`,
        }
        const began = performance.now()
        const answer = await visitor.post('/taste/scores', message)
        await answer.text()
        if (answer.status !== 200) throw new Error(`a score was answered with ${answer.status}`)
        times.push(performance.now() - began)
        await pause(everyMs)
      }
    }),
  )
  const { median, p95 } = middleAndTail(times)
  return [
    below(
      'phones',
      `${phones} phones, a score each ${everyMs / 1000} s, acknowledged, median`,
      median,
      'ms',
      50,
      `p95 ${Math.round(p95)} ms`,
    ),
    plainly('phones', 'scores sent', times.length, 'scores'),
  ]
}

interface PhoneState {
  readonly sitting: string
  readonly cups: readonly { readonly code: string }[]
}

async function joinPanel(
  address: string,
  path: string,
  name: string,
): Promise<{ visitor: Visitor; state: PhoneState }> {
  const visitor = new Visitor(address)
  await visitor.ask(path)
  const form = new URLSearchParams({ act: 'take', name, consent: 'yes', unaffected: 'yes', unseen: 'yes' })
  const taken = await visitor.post(path, form)
  if (taken.status !== 303) throw new Error(`a seat was answered with ${taken.status}`)
  const state = (await (await visitor.ask('/taste/state')).json()) as PhoneState
  return { visitor, state }
}

const pause = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds))

/** What a taster's page loads: our own script, and no framework. */
export async function benchTasterPage(address: string, joinPath: string): Promise<Measured[]> {
  const { visitor } = await joinPanel(address, joinPath, 'Weight')
  const page = await (await visitor.ask('/taste')).text()
  const scripts = [...page.matchAll(/<script[^>]+src="([^"]+)"/g)].map((match) => match[1] ?? '')
  let bytes = 0
  for (const src of scripts) bytes += gzipSync(await (await visitor.ask(src)).text()).length
  return [
    below('taster-page', `JavaScript of the taster’s page, gzipped, ${scripts.length} file`, bytes / 1000, 'kB', 150),
  ]
}
