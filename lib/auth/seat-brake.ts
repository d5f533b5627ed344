import 'server-only'
import { momentsBrake, type MomentsBrake } from './moments-brake'

/** New seats that one network address is given within a minute. */
export const SEATS_A_MINUTE = 12
const WINDOW_MS = 60_000
/** Addresses remembered at once. */
const MOST_ADDRESSES = 2000

/** A memory of who was given seats lately: in this process alone, and no longer than a minute. */
export function seatBrake(): MomentsBrake {
  return momentsBrake({ most: SEATS_A_MINUTE, windowMs: WINDOW_MS, remembered: MOST_ADDRESSES })
}

export const theSeatBrake = seatBrake()
