import 'server-only'

export interface MomentsBrake {
  /**
   * Counts what is about to be done under this key, or says how long to wait.
   * @returns seconds to wait; 0: counted, go on
   */
  take(key: string, now: Date): number
  /** Nothing came of it. */
  giveBack(key: string, now: Date): void
  /** how many keys are remembered */
  readonly size: number
}

/**
 * A memory of what was done lately, in this process alone.
 *
 * @param most        within any `windowMs`
 * @param remembered  keys at once; beyond that the one seen least lately is forgotten
 */
export function momentsBrake({
  most,
  windowMs,
  remembered,
}: {
  readonly most: number
  readonly windowMs: number
  readonly remembered: number
}): MomentsBrake {
  // Keys stand in the order in which they were last seen, each with its moments.
  const done = new Map<string, readonly number[]>()

  function recent(key: string, now: number): readonly number[] {
    // What lies ahead was noted by a clock that has been set back since.
    return (done.get(key) ?? []).filter((at) => at <= now && now - at < windowMs)
  }

  function remember(key: string, moments: readonly number[]): void {
    done.delete(key)
    if (moments.length > 0) done.set(key, moments)
    const [oldest] = done.keys()
    if (done.size > remembered && oldest !== undefined) done.delete(oldest)
  }

  return {
    take(key, now) {
      const moments = recent(key, now.getTime())
      const [first] = moments
      const seconds =
        first === undefined || moments.length < most ? 0 : Math.ceil((first + windowMs - now.getTime()) / 1000)
      remember(key, seconds > 0 ? moments : [...moments, now.getTime()])
      return seconds
    },
    giveBack(key, now) {
      const moments = [...recent(key, now.getTime())]
      const at = moments.lastIndexOf(now.getTime())
      if (at >= 0) moments.splice(at, 1)
      remember(key, moments)
    },
    get size() {
      return done.size
    },
  }
}
