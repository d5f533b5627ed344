'use client'

import { useEffect, useState } from 'react'

/** Keeps the screen on while asked, where the browser allows it: only over https. @returns whether it does */
export function useWakeLock(wanted: boolean): boolean {
  const [held, setHeld] = useState(false)
  useEffect(() => {
    if (!wanted || !('wakeLock' in navigator)) return
    let lock: WakeLockSentinel | null = null
    let gone = false
    const take = async () => {
      lock = await navigator.wakeLock.request('screen').catch(() => null)
      if (gone) void lock?.release()
      else setHeld(lock !== null)
    }
    const back = () => {
      if (document.visibilityState === 'visible') void take()
    }
    void take()
    document.addEventListener('visibilitychange', back)
    return () => {
      gone = true
      document.removeEventListener('visibilitychange', back)
      void lock?.release()
      setHeld(false)
    }
  }, [wanted])
  return held
}
