'use client'

import { useEffect, useState } from 'react'

const everyMs = 1500
const patienceMs = 20_000

type Standing = 'waiting' | 'long' | 'reached'

/** Waits for the phone, and says when it came. */
export function PhoneWait({ from, reached }: { readonly from: string; readonly reached: boolean }) {
  const [standing, setStanding] = useState<Standing>(reached ? 'reached' : 'waiting')
  useEffect(() => {
    if (reached) return
    const since = performance.now()
    let timer: ReturnType<typeof setTimeout> | undefined
    let over = false
    async function ask() {
      const came = await fetch(from, { cache: 'no-store' })
        .then(async (answer) => answer.ok && ((await answer.json()) as { reached: boolean }).reached)
        .catch(() => false)
      if (over) return
      if (came) {
        setStanding('reached')
        return
      }
      setStanding(performance.now() - since > patienceMs ? 'long' : 'waiting')
      timer = setTimeout(ask, everyMs)
    }
    timer = setTimeout(ask, everyMs)
    return () => {
      over = true
      clearTimeout(timer)
    }
  }, [from, reached])
  return (
    <p role="status" className={`text-l ${standing === 'reached' ? 'font-semibold text-accent' : ''}`}>
      {say[standing]}
    </p>
  )
}

const say: Record<Standing, string> = {
  waiting: 'Scan this with a phone’s camera. Waiting for it…',
  long: 'No phone has come by yet. Look at the three things below; this page keeps waiting.',
  reached: 'Reached. Phones can taste here.',
}
