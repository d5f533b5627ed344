// What runs in a thread of its own beside the server: one file, made beside the app's own build, which does not know it.
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..')

/**
 * Writes `worker/rehearsal.cjs` into a build folder. Call it after `next build`, which empties it.
 *
 * @param {string} outDir  the build folder (`.next`, or what NEXT_DIST_DIR names)
 * @returns {Promise<void>}
 */
export async function bundleWorker(outDir) {
  await build({
    absWorkingDir: root,
    entryPoints: [{ in: 'lib/tasks/plan/rehearsal-worker.ts', out: 'rehearsal' }],
    outdir: join(outDir, 'worker'),
    outExtension: { '.js': '.cjs' }, // whatever the folder around it says of its files
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    conditions: ['react-server'],
    charset: 'utf8',
    legalComments: 'none',
    logLevel: 'silent',
  })
}
