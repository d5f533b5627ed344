import 'server-only'
import { nanoid } from 'nanoid'
import pino from 'pino'
import { findFault } from '@/lib/db/fault'

const log = pino({ name: 'sipwright' })

/** Writes down once what failed, and gives the number under which it can be found. The number is all a person sees. */
export function reportFault(error: unknown): string {
  const id = nanoid(8)
  log.error({ fault: id, kind: findFault(error)?.name ?? 'program', err: error }, 'a request failed')
  return id
}
