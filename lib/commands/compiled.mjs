/**
 * Runs a command of ours that needs nothing but its own sources, compiled once for each state of them:
 *
 *     node lib/commands/compiled.mjs stats acceptance scores.csv
 *
 * Compiling takes longer than most answers. What was compiled lies in .tmp and goes when the sources change; where nothing can be
 * written it is compiled each time.
 */
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { fingerprint } from './start/fingerprint.mjs'

const root = fileURLToPath(new URL('../..', import.meta.url)).replace(/[/\\]$/, '')

/** What each command is made of. */
const SOURCES = {
  stats: ['package-lock.json', 'lib/base', 'lib/stats', 'lib/panel', 'lib/commands/stats', 'lib/commands/stats.ts'],
  drink: ['package-lock.json', 'lib/base', 'lib/drink', 'lib/forms', 'lib/panel', 'lib/commands/drink.ts'],
}

const [name] = process.argv.splice(2, 1)
if (name !== 'stats' && name !== 'drink') throw new Error(`no command of ours is called ${name}`)
await run(name)

/** @param {keyof typeof SOURCES} name */
async function run(name) {
  const folder = join(root, '.tmp', 'commands')
  const file = join(folder, `${name}-${fingerprint(root, SOURCES[name], [process.versions.node])}.mjs`)
  if (!existsSync(file)) {
    const code = await compile(name)
    try {
      mkdirSync(folder, { recursive: true })
      for (const old of readdirSync(folder)) if (old.startsWith(`${name}-`)) rmSync(join(folder, old), { force: true })
      // two that start together write the same; neither reads half a file
      writeFileSync(`${file}.${process.pid}`, code)
      renameSync(`${file}.${process.pid}`, file)
    } catch {
      await import(`data:text/javascript;base64,${Buffer.from(code).toString('base64')}`)
      return
    }
  }
  await import(pathToFileURL(file).href)
}

/** @param {string} name */
async function compile(name) {
  const { build } = await import('esbuild')
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: [`lib/commands/${name}.ts`],
    bundle: true,
    write: false,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    conditions: ['react-server'],
    // packages in the older form ask for Node's own modules by `require`
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(process.cwd() + '/package.json');",
    },
    legalComments: 'none',
    logLevel: 'silent',
  })
  return outputFiles[0]?.text ?? ''
}
