import { statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { openDatabase } from '@/lib/db/engine/client'
import type { SeededRandom } from '@/lib/stats/random'
import type { Wanted } from './options'
import { press } from './press'
import { makeSmallDisk } from './small-disk'
import { together, type Row } from './table'
import { TriedHouse, type Template } from './tried-house'

const HOUR_MS = 3_600_000
/** for something to happen to every phone: each scores every two seconds */
const A_WHILE_MS = 5000

export interface Scene {
  readonly template: Template
  /** a temporary folder, for houses */
  readonly folder: string
  readonly wanted: Wanted
  readonly random: SeededRandom
  say(words: string): void
  /** registers what must be undone even when this process is told to end */
  atEnd(act: () => void): void
}

type Done = { readonly again: number | null; readonly times: number }

/** Ended by force at random moments, and started again. */
export async function killAndStart(scene: Scene): Promise<Row> {
  const { random, wanted } = scene
  const whom = [['server'], ['start'], ['start', 'server']] as const
  return tried(scene, 'ended by force (kill -9), started again', async (house) => {
    let again = 0
    for (let time = 1; time <= wanted.kills; time++) {
      await pause(random.below(3000))
      const began = performance.now()
      await house.signal('SIGKILL', whom[random.below(whom.length)] ?? whom[2])
      await house.start()
      await house.phones.allAcknowledged()
      again = Math.max(again, performance.now() - began)
      if (time % 10 === 0) scene.say(`  ${time} of ${wanted.kills}`)
    }
    return { again, times: wanted.kills }
  })
}

/** Told to end, and started again. */
export async function signalAndStart(scene: Scene): Promise<Row> {
  const signals = ['SIGTERM', 'SIGINT', 'SIGHUP'] as const
  return tried(scene, 'told to end (TERM, INT, HUP), started again', async (house) => {
    let again = 0
    const order = scene.random.shuffle(
      signals.flatMap((name) => Array.from({ length: scene.wanted.signals }, () => name)),
    )
    for (const name of order) {
      await pause(scene.random.below(3000))
      const began = performance.now()
      await house.signal(name, ['start'])
      await house.start()
      await house.phones.allAcknowledged()
      again = Math.max(again, performance.now() - began)
    }
    return { again, times: order.length }
  })
}

/** Another connection holds the database. */
export async function lockOut(scene: Scene): Promise<Row> {
  const { lock } = scene.wanted
  return tried(scene, `database held by another connection, ${lock} s`, async (house) => {
    const db = openDatabase(house.databaseUrl)
    try {
      const long = { maxWait: 2 * HOUR_MS, timeout: 2 * HOUR_MS }
      await db.$transaction(async () => pause(lock * 1000), long)
    } finally {
      await db.$disconnect()
    }
    return { again: await house.phones.allAcknowledged(), times: 1 }
  })
}

/** No room is left on the disk, and then there is some again. */
export async function fillDisk(scene: Scene): Promise<Row> {
  const what = 'disk full, then room again'
  const bytes = 2 * statSync(scene.template.file).size + 32 * 2 ** 20
  const disk = makeSmallDisk(join(scene.folder, 'small-disk'), bytes)
  if (!disk) return notDone(what, 'no small disk can be made here; it takes root')
  scene.atEnd(() => disk.takeAway())
  const act = async (house: TriedHouse): Promise<Done> => {
    disk.fill()
    // what the write-ahead log has room for is kept, and then nothing more
    await house.phones.allTurnedAway()
    disk.makeRoom()
    return { again: await house.phones.allAcknowledged(), times: 1 }
  }
  try {
    return await tried(scene, what, act, { folder: join(disk.folder, 'house') })
  } finally {
    disk.takeAway()
  }
}

/** The clock of day is set back an hour while scores come; then the house is started again, and the panel closed. */
export async function setClockBack(scene: Scene): Promise<Row> {
  const clock = join(scene.folder, 'clock')
  const preload = fileURLToPath(new URL('clock.mjs', import.meta.url))
  const env = { TORTURE_CLOCK: clock, NODE_OPTIONS: `--import ${preload}` }
  const act = async (house: TriedHouse): Promise<Done> => {
    writeFileSync(clock, String(-HOUR_MS))
    await pause(A_WHILE_MS)
    const again = await house.phones.allAcknowledged()
    await house.signal('SIGKILL', ['start', 'server'])
    await house.start()
    await house.phones.allAcknowledged()
    await closeMeanwhile(house)
    return { again, times: 1 }
  }
  return tried(scene, 'clock set back an hour, then started again and closed', act, { env })
}

/** A panel is closed while scores are in flight. */
export async function closeInFlight(scene: Scene): Promise<Row> {
  const what = 'panel closed while scores are in flight'
  if (scene.wanted.closes === 0) return notDone(what, 'not asked for')
  const rows: Row[] = []
  for (let time = 0; time < scene.wanted.closes; time++) {
    rows.push(
      await tried(scene, what, async (house) => {
        house.phones.hurry()
        await house.phones.allAcknowledged()
        await pause(scene.random.below(2000))
        await closeMeanwhile(house)
        return { again: null, times: 1 }
      }),
    )
  }
  return together(what, rows)
}

/** Closes the panel as its owner does, and sees to it that nothing is counted that comes afterwards. */
async function closeMeanwhile(house: TriedHouse): Promise<void> {
  const owner = await house.signIn()
  await press(owner, `/panels/${house.panelId}/close`, 'close-panel')
  const counted = await house.countScores()
  await house.phones.allRefused()
  const other = house.phones.refusals.find((reason) => reason !== 'kept-late')
  if (other !== undefined) throw new Error(`a phone was told ${other} after closing`)
  if ((await house.countScores()) !== counted) throw new Error('a score was counted after closing')
  const result = await owner.ask(`/panels/${house.panelId}`)
  if (result.status !== 200) throw new Error(`the result was answered with ${result.status}`)
}

async function tried(
  scene: Scene,
  what: string,
  act: (house: TriedHouse) => Promise<Done>,
  how: { readonly folder?: string; readonly env?: Readonly<Record<string, string>> } = {},
): Promise<Row> {
  scene.say(`${what} …`)
  let house: TriedHouse | null = null
  try {
    house = await TriedHouse.open(
      scene.template,
      how.folder ?? join(scene.folder, 'house'),
      scene.wanted.phones,
      how.env,
    )
    const { again, times } = await act(house)
    await house.phones.settle()
    const { acknowledged: messages, longestWait: wait } = house.phones
    return { what, times, checked: await house.check(), messages, again, wait, trouble: null }
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error)
    return { ...notDone(what, words), trouble: { isFailure: true, words } }
  } finally {
    await house?.throwAway()
  }
}

function notDone(what: string, words: string): Row {
  return { what, times: 0, checked: null, messages: 0, again: null, wait: 0, trouble: { isFailure: false, words } }
}
