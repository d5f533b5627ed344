import type { LaidHistory } from './history'
import { below, millisecondsFrom, sayTail, spreadOf, type Measured } from './measure'
import type { OpenRoom } from './open-room'
import { sitDown } from './phones'
import type { Visitor } from './visitor'

const WARM_UPS = 10
const RUNS = 101

/** What is asked again and again while a panel runs: the watching page's poll, and a phone's state. The history must not matter. */
export async function benchPolls(
  owner: Visitor,
  address: string,
  room: OpenRoom,
  laid: LaidHistory,
): Promise<Measured[]> {
  const taster = await sitDown(address, room.joinPath, 'Poll')
  return [
    await polled(owner, `/panels/${room.panelId}/progress`, 'the watching page’s poll', 20, laid),
    await polled(taster.visitor, '/taste/state', 'the state a phone asks for', 15, laid),
  ]
}

async function polled(
  visitor: Visitor,
  path: string,
  name: string,
  limit: number,
  laid: LaidHistory,
): Promise<Measured> {
  const times: number[] = []
  for (let run = 0; run < WARM_UPS + RUNS; run++) {
    const began = performance.now()
    const answer = await visitor.ask(path)
    await answer.text()
    if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`)
    if (run >= WARM_UPS) times.push(millisecondsFrom(began))
  }
  const spread = spreadOf(times)
  const what = `${name}, with ${laid.panels} closed panels of 60 × 5, median`
  return below({ part: 'polls', what, unit: 'ms', note: sayTail(spread) }, spread.median, limit)
}
