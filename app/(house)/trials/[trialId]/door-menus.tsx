'use client'

import { useEffect, useRef, type KeyboardEvent, type ReactNode } from 'react'

/** Doors that open in place, one at a time. They are plain `details`; the script only closes what one has left. */
export function DoorMenus({ children }: { children: ReactNode }) {
  const row = useRef<HTMLDivElement>(null)
  const openOnes = () => row.current?.querySelectorAll<HTMLDetailsElement>('details[open]') ?? []

  useEffect(() => {
    const left = ({ target }: Event) => {
      for (const menu of row.current?.querySelectorAll<HTMLDetailsElement>('details[open]') ?? []) {
        if (target instanceof Node && !menu.contains(target)) menu.open = false
      }
    }
    document.addEventListener('pointerdown', left)
    document.addEventListener('focusin', left)
    return () => {
      document.removeEventListener('pointerdown', left)
      document.removeEventListener('focusin', left)
    }
  }, [])

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape') return
    for (const menu of openOnes()) {
      menu.open = false
      menu.querySelector('summary')?.focus()
    }
  }
  return (
    <div ref={row} onKeyDown={onKeyDown} className="relative flex flex-wrap items-start gap-3">
      {children}
    </div>
  )
}
