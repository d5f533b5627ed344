/** The clock of day can be set back or forward at any time: how long something took, and how long to wait, is never read off it. */
import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const sources = ['lib', 'app']
  .flatMap((room) => readdirSync(room, { recursive: true, encoding: 'utf8' }).map((file) => `${room}/${file}`))
  .filter((file) => /\.(tsx?|mjs)$/.test(file) && !file.startsWith('lib/db/generated/'))

/** A phone sleeps beside a brew, and its counter with it: the longer of counter and clock counts there. */
const ASKS_BOTH = 'app/(house)/trials/[trialId]/scale/brew-timer.ts'

test('nothing is timed by the clock of day', () => {
  expect(sources.length).toBeGreaterThan(300)
  expect(sources.filter((file) => readFileSync(file, 'utf8').includes('Date.now('))).toEqual([ASKS_BOTH])
})
