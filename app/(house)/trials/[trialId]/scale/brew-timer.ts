'use client'

import { useEffect, useState } from 'react'

/** Counts seconds from when it was started; it goes on while other steps are shown, and stops once. */
export interface BrewTimer {
  /** s counted so far, whole */
  readonly seconds: number
  readonly isRunning: boolean
  start(): void
  /** @returns s counted */
  stop(): number
}

interface Counting {
  readonly place: number
  readonly startedAt: Moment
}

/** ms by the counter that nobody can set, and by the clock of day. */
interface Moment {
  readonly counter: number
  readonly clock: number
}

const moment = (): Moment => ({ counter: performance.now(), clock: Date.now() })

/** The counter of a phone may stand while the phone sleeps, and its clock may be set back: the longer of both was brewed. */
const secondsBetween = (from: Moment, to: Moment) =>
  Math.max(0, Math.floor(Math.max(to.counter - from.counter, to.clock - from.clock) / 1000))

/** One timer at a time: of the grounds at `place`. */
export function useBrewTimer(): (place: number) => BrewTimer {
  const [counting, setCounting] = useState<Counting | null>(null)
  const [now, setNow] = useState<Moment>({ counter: 0, clock: 0 })
  const [counted, setCounted] = useState<Readonly<Record<number, number>>>({})
  useEffect(() => {
    if (!counting) return
    const timer = setInterval(() => setNow(moment()), 250)
    return () => clearInterval(timer)
  }, [counting])
  const since = (at: Moment) => (counting ? secondsBetween(counting.startedAt, at) : 0)
  return (place) => {
    const isRunning = counting?.place === place
    return {
      isRunning,
      seconds: isRunning ? since(now) : (counted[place] ?? 0),
      start: () => {
        const at = moment()
        setNow(at)
        setCounting({ place, startedAt: at })
      },
      stop: () => {
        const seconds = since(moment())
        setCounted((before) => ({ ...before, [place]: seconds }))
        setCounting(null)
        return seconds
      },
    }
  }
}

/** "4:05" */
export function sayClock(seconds: number): string {
  const two = (value: number) => String(value).padStart(2, '0')
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor((seconds % 3600) / 60)]
  return hours > 0 ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`
}
