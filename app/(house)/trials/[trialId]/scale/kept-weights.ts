'use client'

import { nanoid } from 'nanoid/non-secure'
import { useCallback, useEffect, useState } from 'react'
import { readNumber, type NumberField } from '@/lib/base/typed-number'
import { sayNumber } from '@/lib/forms/number-fields'

interface Waiting {
  readonly key: string
  readonly glasses: number
  readonly weights: readonly { readonly position: number; readonly grams: number }[]
}

/** What a kitchen scale can show. */
const shown: NumberField = { least: 0, most: 100_000 }

/** Why this weight cannot be taken as it stands; null when it can, or nothing was typed. */
export function weightProblem(typed: string): string | null {
  const read = readNumber(typed, shown)
  return read.ok || read.reason === 'empty' ? null : sayNumber(read, typed, shown)
}

/** What was read off the scale, in grams; null while it cannot be read. */
export function weightRead(typed: string): number | null {
  const read = readNumber(typed, shown)
  return read.ok ? read.value : null
}

/** The house refuses what is no weighing, or weighs a trial that is not there: keeping it would only ask again. */
const FINAL: ReadonlySet<number> = new Set([404, 422])

/**
 * True when a weighing need not be kept any longer: it was taken, or never will be. Signed out, turned away at the door or
 * answered by somebody else's network, it stays.
 */
export function isSettled(status: number, reply: unknown, key: string): boolean {
  const isTaken = typeof reply === 'object' && reply !== null && 'key' in reply && reply.key === key
  return (status === 200 && isTaken) || FINAL.has(status)
}

const shelf = (trialId: string) => `sipwright-weighings-${trialId}`

function waitingIn(trialId: string): Waiting[] {
  return JSON.parse(localStorage.getItem(shelf(trialId)) ?? '[]') as Waiting[]
}

/** What was read off the scale: kept on this device first, sent when there is a connection, each once by its key. */
export function useKeptWeights(trialId: string, records: boolean) {
  const [weights, setWeights] = useState<Readonly<Record<number, string>>>({})
  const [waiting, setWaiting] = useState(0)

  const send = useCallback(async () => {
    for (const one of waitingIn(trialId)) {
      const answer = await fetch(`/trials/${trialId}/weighings`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify(one),
      }).catch(() => null)
      if (!answer || !isSettled(answer.status, await answer.json().catch(() => null), one.key)) break
      localStorage.setItem(shelf(trialId), JSON.stringify(waitingIn(trialId).filter((other) => other.key !== one.key)))
    }
    setWaiting(waitingIn(trialId).length)
  }, [trialId])

  useEffect(() => {
    if (!records) return
    const again = () => void send()
    again()
    window.addEventListener('online', again)
    document.addEventListener('visibilitychange', again)
    const timer = setInterval(again, 20_000)
    return () => {
      window.removeEventListener('online', again)
      document.removeEventListener('visibilitychange', again)
      clearInterval(timer)
    }
  }, [records, send])

  const finish = (glasses: number) => {
    const read = Object.entries(weights).flatMap(([place, typed]) => {
      const value = readNumber(typed, shown)
      return value.ok ? [{ position: Number(place) + 1, grams: value.value }] : []
    })
    setWeights({})
    if (!records || read.length === 0) return
    // Not a secret, and crypto.randomUUID is not there on plain http: a plain random key tells two weighings apart.
    const all = [...waitingIn(trialId), { key: nanoid(), glasses, weights: read }]
    localStorage.setItem(shelf(trialId), JSON.stringify(all))
    void send()
  }

  return {
    weights,
    waiting,
    finish,
    weigh: (place: number, typed: string) => setWeights((before) => ({ ...before, [place]: typed })),
  }
}
