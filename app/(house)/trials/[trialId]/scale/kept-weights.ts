'use client'

import { nanoid } from 'nanoid/non-secure'
import { useCallback, useEffect, useRef, useState } from 'react'
import type { BrewDone } from '@/lib/forms/ladder-form'
import type { Kept } from './say-scale'

/** What somebody read off: grams added at each place, and what they brewed with. */
export interface ReadOff {
  readonly glasses: number
  readonly weights: readonly { readonly position: number; readonly grams: number }[]
  readonly brew: readonly BrewDone[]
}

type Waiting = ReadOff & { readonly key: string }

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

/** What the house made of one that is settled. */
export function outcomeOf(status: number, reply: unknown): Kept['outcome'] {
  if (status !== 200) return 'refused'
  const within = typeof reply === 'object' && reply !== null && 'within' in reply ? reply.within : null
  return within === true ? 'within' : within === false ? 'outside' : 'kept'
}

/** Of several that were sent one after the other: the gravest is said. */
function together(settled: readonly Kept['outcome'][]): Kept | null {
  const gravest = (['refused', 'outside', 'kept', 'within'] as const).find((one) => settled.includes(one))
  return gravest ? { count: settled.length, outcome: gravest } : null
}

const shelf = (trialId: string) => `sipwright-weighings-${trialId}`

function waitingIn(trialId: string): Waiting[] {
  return JSON.parse(localStorage.getItem(shelf(trialId)) ?? '[]') as Waiting[]
}

/**
 * What was read off the scale: kept on this device first, sent when there is a connection, each once by its key.
 *
 * @param address  where the house keeps it; null: this person's weights are not kept
 * @returns        how many wait, and what became of the last that were sent
 */
export function useKeptWeights(trialId: string, address: string | null) {
  const [waiting, setWaiting] = useState(0)
  const [kept, setKept] = useState<Kept | null>(null)
  const isSending = useRef(false)

  const send = useCallback(async () => {
    if (address === null || isSending.current) return
    isSending.current = true
    const settled: Kept['outcome'][] = []
    for (const one of waitingIn(trialId)) {
      const answer = await fetch(address, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify(one),
      }).catch(() => null)
      const reply: unknown = answer ? await answer.json().catch(() => null) : null
      if (!answer || !isSettled(answer.status, reply, one.key)) break
      settled.push(outcomeOf(answer.status, reply))
      localStorage.setItem(shelf(trialId), JSON.stringify(waitingIn(trialId).filter((other) => other.key !== one.key)))
    }
    isSending.current = false
    setWaiting(waitingIn(trialId).length)
    if (settled.length > 0) setKept(together(settled))
  }, [trialId, address])

  useEffect(() => {
    if (address === null) return
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
  }, [address, send])

  const keep = (read: ReadOff) => {
    const nothing = read.weights.length === 0 && read.brew.length === 0
    setKept(nothing ? { count: 0, outcome: 'nothing' } : null)
    if (address === null || nothing) return
    // Not a secret, and crypto.randomUUID is not there on plain http: a plain random key tells two weighings apart.
    localStorage.setItem(shelf(trialId), JSON.stringify([...waitingIn(trialId), { key: nanoid(), ...read }]))
    setWaiting(waitingIn(trialId).length)
    void send()
  }

  return { waiting, kept, keep }
}
