import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const root = fileURLToPath(new URL('.', import.meta.url))

// 'server-only' throws outside React's server graph; tests and commands run in plain Node.
const alias = { '@': root.replace(/\/$/, ''), 'server-only': `${root}node_modules/server-only/empty.js` }

// Only what hangs is ended: what takes a second here may take ten on another machine, or beside other work.
const HANGS = 15 * 60_000

// A file that puts a module of its own in the place of another needs all modules to itself; the others share what was loaded.
const apart = readdirSync(`${root}test/integration`, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.test.ts'))
  .map((name) => `test/integration/${name}`)
  .filter((name) => readFileSync(`${root}${name}`, 'utf8').includes('vi.mock('))

const shared = { isolate: false }

const project = (name: string, include: string[], more: object = {}) => ({
  resolve: { alias },
  test: {
    name,
    include,
    setupFiles: ['test/support/quiet-console.ts'],
    testTimeout: HANGS,
    hookTimeout: HANGS,
    unstubGlobals: true,
    ...more,
  },
})

export default defineConfig({
  test: {
    teardownTimeout: HANGS,
    // left to itself it keeps one core of two idle
    maxWorkers: '100%',
    projects: [
      project('unit', ['test/unit/**/*.test.{ts,tsx}'], shared),
      project('reference', ['test/reference/**/*.test.ts'], shared),
      project('integration', ['test/integration/**/*.test.ts'], { ...shared, exclude: apart }),
      project('integration-apart', apart),
      // a browser waits more than it works: with two at a time a third of two cores was idle
      project('e2e', ['test/e2e/**/*.spec.ts'], { maxWorkers: 3 }),
      project('long', ['test/long/**/*.spec.ts'], { maxWorkers: 2 }),
    ],
  },
})
