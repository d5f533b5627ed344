import { join } from 'node:path'
import { theDatabase } from '@/lib/db/engine/client'
import { migrate } from '@/lib/db/engine/migrate'
import { foundDemoHouse } from '@/lib/tasks/house/found-demo-house'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'
import { theWorld } from '@/lib/tasks/world'
import { layHistory } from './history'
import { benchCrowd, CROWD } from './crowd'
import { startHouse } from './house'
import { writeLongSheet } from './long-sheet'
import type { Measured } from './measure'
import { openRoom, readBooks } from './open-room'
import { benchNoticed, benchStart } from './noticed'
import { benchPages } from './pages'
import type { Part } from './parts'
import { benchPhones, checkBooks } from './phones'
import { benchPolls } from './polls'
import { benchRehearsal } from './rehearsal'
import { benchTasterPage } from './taster-page'
import { benchTyping } from './typing'
import { Visitor } from './visitor'

/** enough for sixty phones, one that is only weighed, one on a slow line, one that asks for its state, four beside a rehearsal */
const SEATS = 68

/**
 * What only shows in a served house: the built app on a database of its own, asked over loopback.
 *
 * @param folder  a temporary one, for the database
 * @param say     tells a waiting person what is being done
 */
export async function benchServed(
  wanted: ReadonlySet<Part>,
  folder: string,
  say: (words: string) => void,
): Promise<Measured[]> {
  const url = `file:${join(folder, 'bench.db')}`
  process.env['DATABASE_URL'] = url
  await migrate(url, codeSteps)
  const signIn = await foundDemoHouse(theWorld())
  const isBusy = wanted.has('pages') || wanted.has('polls') || wanted.has('phones')
  if (isBusy) say('laying 500 panels …')
  const laid = isBusy ? await layHistory() : null
  const sheet = wanted.has('drink') ? await writeLongSheet() : null
  const room = await openRoom(SEATS)
  const hall = wanted.has('phones') ? await openRoom(CROWD) : null

  const started = wanted.has('noticed') ? await benchStart(url) : null
  const house = started?.house ?? (await startHouse(url))
  try {
    const owner = new Visitor(house.address)
    await owner.signIn(signIn.email, signIn.password)
    const found: Measured[] = started ? [started.measured] : []
    if (sheet !== null) {
      say('typing into a long sheet …')
      found.push(...(await benchTyping(owner, house.address, sheet)))
    }
    if (laid && wanted.has('pages')) {
      say('asking for pages …')
      found.push(...(await benchPages(owner, laid)))
    }
    if (laid && wanted.has('polls')) found.push(...(await benchPolls(owner, house.address, room, laid)))
    if (wanted.has('noticed')) {
      say('taking a seat on a slow line …')
      found.push(...(await benchNoticed(owner, house.address, room)))
    }
    if (wanted.has('taster-page')) found.push(...(await benchTasterPage(house.address, room.joinPath)))
    if (wanted.has('phones')) {
      say('sixty phones score for half a minute …')
      const { measured, given } = await benchPhones(house.address, room.cardPaths)
      const { kept, late } = await readBooks(room.panelId)
      found.push(...measured, ...checkBooks(given, kept, late))
    }
    if (hall) {
      say('two hundred phones send at once …')
      const { measured, given } = await benchCrowd(house.address, hall.cardPaths)
      const { kept, late } = await readBooks(hall.panelId)
      found.push(...measured, ...checkBooks(given, kept, late))
    }
    if (wanted.has('rehearsal')) {
      say('rehearsing plans while phones score …')
      found.push(...(await benchRehearsal(owner, house.address, room)))
    }
    return found
  } finally {
    await house.stop()
    await theDatabase().$disconnect()
  }
}
