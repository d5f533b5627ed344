import { readFile } from 'node:fs/promises'
import { resolve } from 'node:path'

const kept = new Map<string, string>()

/** A file that `bundlePhone` wrote beside the build; kept in memory once read, except where it may change. */
export async function builtFile(name: 'taste.js' | 'taste.css' | 'home.js' | 'home.css'): Promise<string> {
  const before = kept.get(name)
  if (before !== undefined) return before
  const folder = process.env.NEXT_DIST_DIR || '.next'
  const text = await readFile(resolve(/* turbopackIgnore: true */ process.cwd(), folder, 'phone', name), 'utf8')
  if (process.env.NODE_ENV === 'production') kept.set(name, text)
  return text
}
