/**
 * Loaded by `--import` into a process whose clock is to be set: the file named by TORTURE_CLOCK holds by how many milliseconds
 * its clock of day is ahead, and may change at any time. The machine's own clock is left alone.
 */
import { readFileSync } from 'node:fs'

const file = process.env.TORTURE_CLOCK ?? ''
const Real = Date
let ahead = 0
look()
setInterval(look, 50).unref()

function look() {
  try {
    ahead = Number(readFileSync(file, 'utf8'))
  } catch {
    ahead = 0 // nobody has set it yet
  }
}

const now = () => Real.now() + ahead
globalThis.Date = new Proxy(Real, {
  construct: (target, words, newTarget) => Reflect.construct(target, words.length > 0 ? words : [now()], newTarget),
  apply: (target) => new target(now()).toString(),
  get: (target, name, receiver) => (name === 'now' ? now : Reflect.get(target, name, receiver)),
})
