import { readEnvironment, type Environment } from './read-environment.mjs'

let known: Environment | null = null

/**
 * The environment of this process, read once.
 *
 * @throws Error  a variable is wrong; the message names it and the mend
 */
export function theEnvironment(): Environment {
  if (known === null) {
    const read = readEnvironment(process.env, process.cwd())
    if (!read.ok) throw new Error(read.problem)
    known = read.value
  }
  return known
}

/** Whether people come by https: then no cookie travels in the open. */
export function servesHttps(): boolean {
  return theEnvironment().publicUrl?.startsWith('https:') ?? false
}
