import 'server-only'
import { appendFileSync, existsSync, readFileSync } from 'node:fs'
import * as z from 'zod'

/** Somebody whose name is to stay out, whatever older copy of the database comes back: no name, an id. */
export interface ForgottenMark {
  readonly of: 'taster' | 'member' | 'home'
  readonly id: string
  /** what a taster wrote in comments, or somebody at home in their answer, goes too */
  readonly words: boolean
}

const Mark = z.object({ of: z.enum(['taster', 'member', 'home']), id: z.string(), words: z.boolean() })

/** A file beside the database, one mark a line: restoring a copy does not bring it back to before. */
export interface ForgottenMarks {
  add(marks: readonly ForgottenMark[]): void
  all(): readonly ForgottenMark[]
}

/** @param databaseFile  path of the database */
export function forgottenMarks(databaseFile: string): ForgottenMarks {
  const file = `${databaseFile}.forgotten`
  return {
    add(marks) {
      if (marks.length === 0) return
      // Begun on a new line: one that a power cut broke off is not read, and breaks no other.
      appendFileSync(file, marks.map((mark) => `\n${JSON.stringify(mark)}`).join(''), { mode: 0o600, flush: true })
    },
    all() {
      if (!existsSync(file)) return []
      return readFileSync(file, 'utf8')
        .split('\n')
        .flatMap((line) => {
          const mark = Mark.safeParse(parsed(line))
          return mark.success ? [mark.data] : []
        })
    },
  }
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line)
  } catch {
    return null
  }
}
