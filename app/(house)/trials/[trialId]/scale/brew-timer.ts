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
  readonly startedAt: number
}

/** One timer at a time: of the grounds at `place`. The clock of the device is asked, so that a sleeping screen loses nothing. */
export function useBrewTimer(): (place: number) => BrewTimer {
  const [counting, setCounting] = useState<Counting | null>(null)
  const [now, setNow] = useState(0)
  const [counted, setCounted] = useState<Readonly<Record<number, number>>>({})
  useEffect(() => {
    if (!counting) return
    const timer = setInterval(() => setNow(Date.now()), 250)
    return () => clearInterval(timer)
  }, [counting])
  const since = (at: number) => (counting ? Math.max(0, Math.floor((at - counting.startedAt) / 1000)) : 0)
  return (place) => {
    const isRunning = counting?.place === place
    return {
      isRunning,
      seconds: isRunning ? since(now) : (counted[place] ?? 0),
      start: () => {
        const at = Date.now()
        setNow(at)
        setCounting({ place, startedAt: at })
      },
      stop: () => {
        const seconds = since(Date.now())
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
