import 'server-only'
import { momentsBrake } from './moments-brake'

const MINUTE_MS = 60_000

/** Answers that one network address sends to links of home, and that one link takes whoever sends them. */
export const HOME_LIMITS = {
  byAsker: { most: 5, windowMs: 10 * MINUTE_MS },
  byLink: { most: 60, windowMs: 60 * MINUTE_MS },
  /** looking at a link, or trying whether there is one */
  looks: { most: 60, windowMs: MINUTE_MS },
} as const

const REMEMBERED = 2000

export const theHomeBrakes = {
  byAsker: momentsBrake({ ...HOME_LIMITS.byAsker, remembered: REMEMBERED }),
  byLink: momentsBrake({ ...HOME_LIMITS.byLink, remembered: REMEMBERED }),
  looks: momentsBrake({ ...HOME_LIMITS.looks, remembered: REMEMBERED }),
}
