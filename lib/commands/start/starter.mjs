import { seeProcess } from './process.mjs'

const LOOK_EVERY_MS = 250

/**
 * The processes that run this one for somebody: npm, and the shell it may have put between. Nobody else: who starts us
 * by hand may go, and what keeps services may hand us on.
 *
 * npm passes no signal through a shell that waits, and cannot pass on its own violent end.
 *
 * @param {number} parent  the process that started this one
 * @param {Readonly<Record<string, string | undefined>>} variables
 * @param {(pid: number) => import('./process.mjs').Seen | null} [see]
 * @returns {number[]} nearest first
 */
export function findStarters(parent, variables, see = seeProcess) {
  const script = variables.npm_lifecycle_script
  if (!script || parent <= 1) return []
  const seen = see(parent)
  if (!seen) return []
  if (isNpm(seen.command, variables)) return [parent]
  if (!seen.command.includes(script) || seen.parent <= 1) return []
  const above = see(seen.parent)
  return above && isNpm(above.command, variables) ? [parent, seen.parent] : []
}

/**
 * Calls back once, when one of the starters is no longer there.
 *
 * @param {() => void} act
 */
export function whenStartersGo(act) {
  const [first, second] = findStarters(process.ppid, process.env)
  if (first === undefined) return
  const timer = setInterval(() => {
    const isThere = process.ppid === first && (second === undefined || seeProcess(first)?.parent === second)
    if (isThere) return
    clearInterval(timer)
    act()
  }, LOOK_EVERY_MS)
  timer.unref()
}

/**
 * npm gives itself the name "npm start"; until it has, and elsewhere, it is Node with npm's own file.
 *
 * @param {string} command
 * @param {Readonly<Record<string, string | undefined>>} variables
 */
function isNpm(command, variables) {
  const file = variables.npm_execpath
  return /^npm\b/.test(command) || (file !== undefined && file !== '' && command.includes(file))
}
