import 'server-only'

/** New seats that one network address is given within a minute. */
export const SEATS_A_MINUTE = 12
const WINDOW_MS = 60_000
/** Addresses remembered at once; beyond that the one seen least lately is forgotten. */
const MOST_ADDRESSES = 2000

export interface SeatBrake {
  /**
   * Counts a seat about to be taken from this address, or says how long to wait.
   * @returns seconds to wait; 0: counted, go on
   */
  take(address: string, now: Date): number
  /** No seat came of it. */
  giveBack(address: string, now: Date): void
  /** how many addresses are remembered */
  readonly size: number
}

/** A memory of who was given seats lately: in this process alone, and no longer than a minute. */
export function seatBrake(): SeatBrake {
  // Addresses stand in the order in which they were last seen, each with the moments of its seats.
  const given = new Map<string, readonly number[]>()

  function recent(address: string, now: number): readonly number[] {
    // What lies ahead was noted by a clock that has been set back since.
    return (given.get(address) ?? []).filter((at) => at <= now && now - at < WINDOW_MS)
  }

  function remember(address: string, moments: readonly number[]): void {
    given.delete(address)
    if (moments.length > 0) given.set(address, moments)
    const [oldest] = given.keys()
    if (given.size > MOST_ADDRESSES && oldest !== undefined) given.delete(oldest)
  }

  return {
    take(address, now) {
      const moments = recent(address, now.getTime())
      const [first] = moments
      const seconds =
        first === undefined || moments.length < SEATS_A_MINUTE
          ? 0
          : Math.ceil((first + WINDOW_MS - now.getTime()) / 1000)
      remember(address, seconds > 0 ? moments : [...moments, now.getTime()])
      return seconds
    },
    giveBack(address, now) {
      const moments = [...recent(address, now.getTime())]
      const at = moments.lastIndexOf(now.getTime())
      if (at >= 0) moments.splice(at, 1)
      remember(address, moments)
    },
    get size() {
      return given.size
    },
  }
}

export const theSeatBrake = seatBrake()
