import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { keep } from '../start/child.mjs'

export interface Ran {
  /** null when it could not be started, or did not end in time */
  readonly code: number | null
  readonly output: string
  readonly errors: string
  readonly milliseconds: number
}

/** Runs a program to its end and keeps what it says; it is stopped with this process, and after `patienceMs`. */
export async function runProgram(program: string, words: readonly string[], patienceMs: number): Promise<Ran> {
  const began = performance.now()
  const child = keep(spawn(program, words, { stdio: ['ignore', 'pipe', 'pipe'], timeout: patienceMs }))
  let [output, errors] = ['', '']
  child.stdout.on('data', (bytes: Buffer) => (output += bytes.toString()))
  child.stderr.on('data', (bytes: Buffer) => (errors += bytes.toString()))
  const code = await once(child, 'close').then(
    ([code]: unknown[]) => (typeof code === 'number' && code >= 0 ? code : null),
    () => null,
  )
  return { code, output, errors, milliseconds: performance.now() - began }
}
