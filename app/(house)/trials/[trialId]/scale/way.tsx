'use client'

import { useSyncExternalStore } from 'react'
import type { Way } from '@/lib/forms/scale-steps'

const SHELF = 'sipwright-scale-way'
const CHANGED = 'sipwright-scale-way-changed'

function listen(changed: () => void) {
  window.addEventListener(CHANGED, changed)
  window.addEventListener('storage', changed)
  return () => {
    window.removeEventListener(CHANGED, changed)
    window.removeEventListener('storage', changed)
  }
}

function kept(): Way {
  return localStorage.getItem(SHELF) === 'run' ? 'run' : 'tare'
}

/** How this device weighs: chosen once, and kept here. */
export function useWay(): Way {
  return useSyncExternalStore(listen, kept, () => 'tare')
}

const ways: readonly { readonly way: Way; readonly words: string }[] = [
  { way: 'tare', words: 'I tare before each thing: the scale shows what is added' },
  { way: 'run', words: 'I tare once and let it run: the scale shows all that is in' },
]

export function WayChoice({ way }: { way: Way }) {
  return (
    <fieldset className="grid gap-1">
      <legend className="font-semibold">How do you weigh? Kept on this device</legend>
      {ways.map((one) => (
        <label key={one.way} className="flex min-h-11 items-center gap-3">
          <input
            type="radio"
            name="way"
            checked={way === one.way}
            onChange={() => {
              localStorage.setItem(SHELF, one.way)
              window.dispatchEvent(new Event(CHANGED))
            }}
            className="size-5 shrink-0 accent-[var(--accent)]"
          />
          {one.words}
        </label>
      ))}
    </fieldset>
  )
}
