import 'server-only'
import { nanoid } from 'nanoid'
import pino from 'pino'
import { findFault } from '@/lib/db/engine/fault'

// pino's own way to the output hangs on a full disk when the process ends
const log = pino({ name: 'sipwright' }, { write: sayWhereItIsHeard })

/** Writes down once what failed, and gives the number under which it can be found. The number is all a person sees. */
export function reportFault(error: unknown): string {
  const id = nanoid(8)
  log.error({ fault: id, kind: findFault(error)?.name ?? 'program', err: error }, 'a request failed')
  return id
}

/** On the output, which is the log; where that takes nothing, among the errors. */
function sayWhereItIsHeard(line: string): void {
  process.stdout.write(line, (error) => {
    if (error) process.stderr.write(line, () => undefined)
  })
}
