import { createHash } from 'node:crypto'
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'

// What a step depends on. A step is done again when the fingerprint of its paths differs from the one it left behind.
export const INSTALL_PATHS = Object.freeze(['package-lock.json'])
export const CLIENT_PATHS = Object.freeze(['package-lock.json', 'prisma/schema.prisma', 'prisma.config.ts'])
export const BUILD_PATHS = Object.freeze([
  'package.json',
  'package-lock.json',
  'tsconfig.json',
  'tsconfig.build.json',
  'next.config.mjs',
  'postcss.config.mjs',
  'proxy.ts',
  'instrumentation.ts',
  'prisma/schema.prisma',
  'app',
  'lib',
  'lib/commands/phone-bundle.mjs',
  'lib/commands/worker-bundle.mjs',
  'public',
])
const NOT_BUILT = new Set(['lib/commands', 'lib/db/generated'])

/**
 * A short name for the present state of files: same names and same bytes give the same name, on any machine.
 *
 * @param {string} root
 * @param {readonly string[]} paths  files and folders under root, with `/`; those that do not exist count as absent
 * @param {readonly string[]} [also]  other things that decide, such as the Node ABI
 */
export function fingerprint(root, paths, also = []) {
  const hash = createHash('sha256')
  for (const word of also) hash.update(`also\0${word}\0`)
  for (const path of paths.flatMap((path) => filesUnder(root, path))) {
    const bytes = readFileSync(join(root, path))
    hash.update(`${path}\0${bytes.length}\0`).update(bytes)
  }
  return hash.digest('hex').slice(0, 16)
}

/** What decides whether compiled packages fit this Node. */
export function nodeAbi() {
  return `${process.platform} ${process.arch} ${process.versions.modules}`
}

/**
 * @param {string} root
 * @param {string} path
 * @returns {string[]} sorted, so that the order of the disk does not matter
 */
function filesUnder(root, path) {
  const stat = statSync(join(root, path), { throwIfNoEntry: false })
  if (!stat || NOT_BUILT.has(path)) return []
  if (!stat.isDirectory()) return [path]
  return readdirSync(join(root, path))
    .filter((name) => !name.startsWith('.'))
    .sort()
    .flatMap((name) => filesUnder(root, `${path}/${name}`))
}
