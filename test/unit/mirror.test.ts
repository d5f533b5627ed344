import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

const root = fileURLToPath(new URL('../..', import.meta.url))

function filesBelow(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? filesBelow(`${folder}/${entry.name}`) : [`${folder}/${entry.name}`],
  )
}

/** A file of types alone has nothing to run. */
const runs = (file: string): boolean =>
  /^export (async )?(function|const|class|\{)/m.test(readFileSync(join(root, file), 'utf8'))

test.each(['lib/stats', 'lib/drink', 'lib/panel'])('every file of %s has a unit test of the same name', (room) => {
  const untested = filesBelow(room)
    .filter((file) => file.endsWith('.ts') && runs(file))
    .filter((file) => !existsSync(join(root, file.replace(/^lib/, 'test/unit').replace(/\.ts$/, '.test.ts'))))
  expect(untested).toEqual([])
})

test.each(['stats', 'drink', 'panel'])('every unit test of %s tests a file that is there', (room) => {
  const orphans = filesBelow(`test/unit/${room}`)
    .filter((file) => file.endsWith('.test.ts'))
    .filter((file) => !existsSync(join(root, file.replace(/^test\/unit/, 'lib').replace(/\.test\.ts$/, '.ts'))))
  expect(orphans).toEqual([])
})
