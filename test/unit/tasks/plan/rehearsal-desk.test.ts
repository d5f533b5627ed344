import { expect, test } from 'vitest'
import type { PlanQuestion, PlayedPlan } from '@/lib/tasks/plan/play-plan'
import { rehearsalDesk, type Player } from '@/lib/tasks/plan/rehearsal-desk'

const question = (seats: number) => ({ seats }) as PlanQuestion
const playedFor = (seats: number) => ({ best: null, rehearsed: { panels: seats } }) as PlayedPlan

/** A desk whose players answer when they are told to. */
function deskForTest({ waiting = 2, longestMs = 600_000 } = {}) {
  const playing: { seats: number; answer: () => void; breakOff: () => void; ended: boolean }[] = []
  const play = ({ seats }: PlanQuestion): Player => {
    const one = { seats, answer: () => undefined as void, breakOff: () => undefined as void, ended: false }
    playing.push(one)
    return {
      answer: new Promise((settle, refuse) => {
        one.answer = () => settle(playedFor(seats))
        one.breakOff = () => refuse(new Error('no memory'))
      }),
      end: () => Promise.resolve((one.ended = true)),
    }
  }
  const heard: unknown[] = []
  const desk = rehearsalDesk(play, { waiting, longestMs })
  const ask = (who: string, about: PlanQuestion) => desk.ask(who, about, (error) => heard.push(error))
  return { ask, playing, heard }
}

test('one at a time, in the order of asking', async () => {
  const { ask, playing } = deskForTest()
  const [ana, ben] = [ask('ana', question(1)), ask('ben', question(2))]
  expect(playing.map(({ seats }) => seats)).toEqual([1])
  playing[0]?.answer()
  expect(await ana).toEqual({ ok: true, value: playedFor(1) })
  expect(playing[0]?.ended).toBe(true)
  expect(playing.map(({ seats }) => seats)).toEqual([1, 2])
  playing[1]?.answer()
  expect(await ben).toEqual({ ok: true, value: playedFor(2) })
})

test('a newer question of the same person takes the place of the older, played or waiting', async () => {
  const { ask, playing } = deskForTest()
  const first = ask('ana', question(1))
  const second = ask('ana', question(2))
  expect(await first).toEqual({ ok: false, reason: 'overtaken' })
  expect(playing[0]?.ended).toBe(true)
  const [waits, takesItsPlace] = [ask('ben', question(3)), ask('ben', question(4))]
  expect(await waits).toEqual({ ok: false, reason: 'overtaken' })
  playing[1]?.answer()
  expect(await second).toMatchObject({ ok: true })
  playing[2]?.answer()
  expect(await takesItsPlace).toEqual({ ok: true, value: playedFor(4) })
  expect(playing.map(({ seats }) => seats)).toEqual([1, 2, 4])
})

test('no more than so many wait; who asks again loses nothing by it', async () => {
  const { ask, playing } = deskForTest({ waiting: 1 })
  const [ana, ben] = [ask('ana', question(1)), ask('ben', question(2))]
  expect(await ask('cy', question(3))).toEqual({ ok: false, reason: 'too-many' })
  const again = ask('ben', question(4))
  expect(await ben).toEqual({ ok: false, reason: 'overtaken' })
  playing[0]?.answer()
  await ana
  playing[1]?.answer()
  expect(await again).toEqual({ ok: true, value: playedFor(4) })
})

test('what breaks off is a reason, is reported, and the next one is played', async () => {
  const { ask, playing, heard } = deskForTest()
  const [ana, ben] = [ask('ana', question(1)), ask('ben', question(2))]
  playing[0]?.breakOff()
  expect(await ana).toEqual({ ok: false, reason: 'broke-off' })
  expect(heard).toHaveLength(1)
  playing[1]?.answer()
  expect(await ben).toMatchObject({ ok: true })
})

test('what cannot even begin is a reason, too', async () => {
  const heard: unknown[] = []
  const cannot = () => {
    throw new Error('no thread')
  }
  const desk = rehearsalDesk(cannot, { waiting: 1, longestMs: 600_000 })
  expect(await desk.ask('ana', question(1), (error) => heard.push(error))).toEqual({ ok: false, reason: 'broke-off' })
  expect(heard).toHaveLength(1)
})

test('what takes too long is given up', async () => {
  const { ask, playing } = deskForTest({ longestMs: 1 })
  // the clock of the desk holds nobody up: this one does
  const alive = setInterval(() => undefined, 1000)
  expect(await ask('ana', question(1))).toEqual({ ok: false, reason: 'too-long' })
  clearInterval(alive)
  expect(playing[0]?.ended).toBe(true)
})
