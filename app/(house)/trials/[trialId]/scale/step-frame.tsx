'use client'

import type { ReactNode } from 'react'
import { Button } from '@/app/ui/button'

/** Where a step stands among the others, and how one leaves it. */
export interface Turn {
  readonly place: number
  readonly of: number
  next(): void
  readonly back: (() => void) | null
}

/** One step a screen: the lower half goes on, as long as everything typed can be read. */
export function StepFrame({
  turn,
  canGoOn,
  next,
  children,
}: {
  readonly turn: Turn
  readonly canGoOn: boolean
  /** words of the way on; null: the usual ones */
  readonly next: string | null
  readonly children: ReactNode
}) {
  const last = turn.place + 1 === turn.of
  return (
    <div className="grid min-h-[70dvh] grid-rows-[auto_1fr] gap-3">
      <div className="grid content-start gap-3">
        <p className="text-soft">
          Step {turn.place + 1} of {turn.of}
        </p>
        {children}
        {turn.back && (
          <Button look="quiet" className="justify-self-start" onClick={turn.back}>
            Back
          </Button>
        )}
      </div>
      <button
        type="button"
        onClick={() => canGoOn && turn.next()}
        aria-disabled={!canGoOn}
        className="min-h-40 w-full cursor-pointer rounded bg-accent text-xl font-semibold text-on-accent aria-disabled:cursor-not-allowed aria-disabled:opacity-60"
      >
        {canGoOn ? (next ?? (last ? 'Check the total' : 'Next step')) : 'Mend what was typed first'}
      </button>
    </div>
  )
}
