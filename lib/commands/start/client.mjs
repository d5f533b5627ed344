import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { machineTrouble, runLogged } from './child.mjs'
import { CLIENT_PATHS, fingerprint } from './fingerprint.mjs'
import { StartFailure } from './say.mjs'

/** @param {string} root */
const stampFile = (root) => join(root, 'lib', 'db', 'generated', '.fingerprint')

/** @param {string} root */
export function isClientGenerated(root) {
  return existsSync(stampFile(root)) && readFileSync(stampFile(root), 'utf8') === fingerprint(root, CLIENT_PATHS)
}

/**
 * Writes the database client from prisma/schema.prisma.
 *
 * @param {string} root
 * @param {string} logs
 */
export async function generateClient(root, logs) {
  const log = join(logs, 'generate.log')
  // Prisma would fetch a schema engine, which generating does not use: any program that exists will do.
  const env = {
    PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
    PRISMA_HIDE_UPDATE_MESSAGE: '1',
    CHECKPOINT_DISABLE: '1',
  }
  const prisma = join(root, 'node_modules', 'prisma', 'build', 'index.js')
  const code = await runLogged(process.execPath, [prisma, 'generate', '--no-hints'], { cwd: root, env, log })
  if (code !== 0) {
    const mend = machineTrouble(root) ?? 'is prisma/schema.prisma as it was released?'
    throw new StartFailure(`The database client could not be written: ${mend} (log: ${log}).`)
  }
  writeFileSync(stampFile(root), fingerprint(root, CLIENT_PATHS))
}
