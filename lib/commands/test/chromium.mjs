import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { delimiter, join } from 'node:path'

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome']
const MAC = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'

/**
 * The browser for tests: CHROMIUM_PATH if set, else the first one found.
 *
 * @param {Readonly<Record<string, string | undefined>>} [variables]
 * @returns {string | null}
 */
export function findChromium(variables = process.env) {
  if (variables.CHROMIUM_PATH) return existsSync(variables.CHROMIUM_PATH) ? variables.CHROMIUM_PATH : null
  const folders = ['/usr/bin', '/usr/local/bin', ...(variables.PATH ?? '').split(delimiter)]
  const places = NAMES.flatMap((name) => folders.map((folder) => join(folder, name)))
  return [...places, MAC].find((place) => existsSync(place)) ?? null
}

/**
 * Finds the browser, or installs Debian's where that is allowed.
 *
 * @returns {{ ok: true, path: string } | { ok: false, mend: string }}
 */
export function chromiumForTests() {
  const mend =
    'Install Chromium (on Debian: apt-get install chromium) or set CHROMIUM_PATH to one, then run npm test again.'
  const found = findChromium()
  if (found) return { ok: true, path: found }
  const isRoot = process.getuid?.() === 0
  if (process.env.CHROMIUM_PATH || !isRoot || !existsSync('/usr/bin/apt-get')) return { ok: false, mend }

  process.stdout.write("Installing Debian's Chromium for the browser tests …\n")
  const apt = (/** @type {string[]} */ ...words) =>
    spawnSync('apt-get', words, { env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }, encoding: 'utf8' })
  apt('-qq', 'update')
  const done = apt('-qq', '-y', '--no-install-recommends', 'install', 'chromium', 'fonts-liberation')
  const path = findChromium()
  if (path) return { ok: true, path }
  process.stderr.write(done.stderr)
  return { ok: false, mend }
}
