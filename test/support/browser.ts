/** Debian's Chromium, with a fresh profile and quiet about the world outside. */
import { chromium, type Browser, type LaunchOptions } from 'playwright-core'
import { findChromium } from '@/lib/commands/test/chromium.mjs'

/** For anything to appear on a page: only what never comes is given up, and sooner than the test around it. */
export const PATIENCE_MS = 3 * 60_000

const QUIET = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/** @param more  for instance `['--host-resolver-rules=MAP kiosk.test 127.0.0.1']`, to come by a name that is not localhost */
export async function launchBrowser(more: readonly string[] = [], options: LaunchOptions = {}): Promise<Browser> {
  const executablePath = findChromium()
  if (executablePath === null) throw new Error('no Chromium found: set CHROMIUM_PATH, or run npm test, which says how')
  return chromium.launch({ timeout: PATIENCE_MS, ...options, executablePath, args: [...QUIET, ...more] })
}
