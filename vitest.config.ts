import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const root = fileURLToPath(new URL('.', import.meta.url))

// 'server-only' throws outside React's server graph; tests and commands run in plain Node.
const alias = { '@': root.replace(/\/$/, ''), 'server-only': `${root}node_modules/server-only/empty.js` }

const project = (name: string, include: string[], more: object = {}) => ({
  resolve: { alias },
  test: { name, include, setupFiles: ['test/support/quiet-console.ts'], ...more },
})

export default defineConfig({
  test: {
    projects: [
      project('unit', ['test/unit/**/*.test.{ts,tsx}']),
      project('reference', ['test/reference/**/*.test.ts']),
      project('integration', ['test/integration/**/*.test.ts'], { testTimeout: 30_000 }),
      project('e2e', ['test/e2e/**/*.spec.ts'], { testTimeout: 300_000, hookTimeout: 300_000, fileParallelism: false }),
    ],
  },
})
