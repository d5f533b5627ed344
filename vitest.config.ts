import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const root = fileURLToPath(new URL('.', import.meta.url))

// 'server-only' throws outside React's server graph; tests and commands run in plain Node.
const alias = { '@': root.replace(/\/$/, ''), 'server-only': `${root}node_modules/server-only/empty.js` }

// Only what hangs is ended: what takes a second here may take ten on another machine, or beside other work.
const HANGS = 15 * 60_000

const project = (name: string, include: string[], more: object = {}) => ({
  resolve: { alias },
  test: {
    name,
    include,
    setupFiles: ['test/support/quiet-console.ts'],
    testTimeout: HANGS,
    hookTimeout: HANGS,
    ...more,
  },
})

export default defineConfig({
  test: {
    teardownTimeout: HANGS,
    // left to itself it keeps one core of two idle
    maxWorkers: '100%',
    projects: [
      project('unit', ['test/unit/**/*.test.{ts,tsx}']),
      project('reference', ['test/reference/**/*.test.ts']),
      project('integration', ['test/integration/**/*.test.ts']),
      project('e2e', ['test/e2e/**/*.spec.ts'], { maxWorkers: 2 }),
      project('long', ['test/long/**/*.spec.ts'], { fileParallelism: false }),
    ],
  },
})
