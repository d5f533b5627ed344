/** Writes the database client when the schema has changed: `node lib/commands/generate.mjs`. */
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { generateClient, isClientGenerated } from './start/client.mjs'
import { StartFailure } from './start/say.mjs'

const root = fileURLToPath(new URL('../..', import.meta.url))

try {
  if (!isClientGenerated(root)) await generateClient(root, join(root, '.data', 'logs'))
} catch (error) {
  if (!(error instanceof StartFailure)) throw error
  console.error(error.message)
  process.exitCode = 1
}
