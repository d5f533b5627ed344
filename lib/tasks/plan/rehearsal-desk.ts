import 'server-only'
import { resolve } from 'node:path'
import { Worker } from 'node:worker_threads'
import { no, ok, type Result } from '@/lib/base/result'
import type { PlanQuestion, PlayedPlan } from './play-plan'

/** Why a plan was not played. */
export type NotPlayed =
  /** the same person has asked something newer */
  | 'overtaken'
  /** too many wait already */
  | 'too-many'
  /** it took longer than anybody waits */
  | 'too-long'
  /** the worker could not be started, or broke off */
  | 'broke-off'

export type Played = Result<PlayedPlan, NotPlayed>

/** What plays one question and is then gone. */
export interface Player {
  /** at most once; not at all after `end` */
  readonly answer: Promise<PlayedPlan>
  end(): Promise<unknown>
}

export interface RehearsalDesk {
  /** @param report  hears of what broke off */
  ask(who: string, question: PlanQuestion, report: (error: unknown) => void): Promise<Played>
}

interface Asked {
  readonly who: string
  readonly question: PlanQuestion
  readonly report: (error: unknown) => void
  readonly answer: (played: Played) => void
}

interface Rules {
  /** how many may wait behind the one that is played */
  readonly waiting: number
  readonly longestMs: number
}

/**
 * Plays one question at a time, in the order of asking. Who asks again takes the place of their own older question, played or waiting:
 * nobody reads an answer to what was typed before.
 */
export function rehearsalDesk(play: (question: PlanQuestion) => Player, rules: Rules): RehearsalDesk {
  let playing: { readonly asked: Asked; stop(reason: NotPlayed): void } | null = null
  let waiting: readonly Asked[] = []

  function next(): void {
    const [asked, ...rest] = waiting
    if (playing || !asked) return
    waiting = rest
    let stop: (reason: NotPlayed) => void = () => undefined
    const stopped = new Promise<Played>((settle) => {
      stop = (reason) => settle(no(reason))
    })
    playing = { asked, stop }
    void playOne(asked, stopped, () => stop('too-long')).then((played) => {
      playing = null
      asked.answer(played)
      next()
    })
  }

  async function playOne({ question, report }: Asked, stopped: Promise<Played>, giveUp: () => void): Promise<Played> {
    const clock = setTimeout(giveUp, rules.longestMs)
    clock.unref()
    try {
      const player = play(question)
      try {
        return await Promise.race([player.answer.then(ok), stopped])
      } finally {
        await player.end()
      }
    } catch (error) {
      report(error)
      return no('broke-off')
    } finally {
      clearTimeout(clock)
    }
  }

  return {
    ask(who, question, report) {
      if (playing?.asked.who === who) playing.stop('overtaken')
      for (const older of waiting.filter((asked) => asked.who === who)) older.answer(no('overtaken'))
      waiting = waiting.filter((asked) => asked.who !== who)
      if (waiting.length >= rules.waiting) return Promise.resolve(no('too-many'))
      return new Promise((answer) => {
        waiting = [...waiting, { who, question, report, answer }]
        next()
      })
    },
  }
}

/** The file that `bundleWorker` wrote beside the build, from the folder in which the app runs. */
function workerFile(): string {
  const folder = process.env['NEXT_DIST_DIR'] || '.next'
  return resolve(/* turbopackIgnore: true */ process.cwd(), folder, 'worker', 'rehearsal.cjs')
}

/** A thread of its own for one question. It holds nobody up: not the one that serves, nor its end. */
export function playInWorker(question: PlanQuestion): Player {
  const worker = new Worker(/* turbopackIgnore: true */ workerFile(), {
    workerData: question,
    // what the server is started with is not for it: no secret, and no other way to end
    env: {},
    execArgv: [],
    resourceLimits: { maxOldGenerationSizeMb: 256 },
  })
  worker.unref()
  const answer = new Promise<PlayedPlan>((settle, refuse) => {
    worker.once('message', (played: PlayedPlan) => settle(played))
    worker.once('error', refuse)
    worker.once('exit', (code) => refuse(new Error(`the rehearsal's worker ended with ${code} and without an answer`)))
  })
  // after the listeners: the first of them would hold the process again
  worker.unref()
  // who has stopped listening is not told of its end
  answer.catch(() => undefined)
  return { answer, end: () => worker.terminate() }
}
