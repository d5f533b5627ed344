// What a taster's phone loads: one small script and one style sheet, made beside the app's own build.
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..')

/**
 * Writes `phone/taste.js` and `phone/taste.css` into a build folder. Call it after `next build`, which empties it.
 *
 * @param {string} outDir  the build folder (`.next`, or what NEXT_DIST_DIR names)
 * @returns {Promise<void>}
 */
export async function bundlePhone(outDir) {
  await build({
    absWorkingDir: root,
    entryPoints: [
      { in: 'app/taste/phone/main.ts', out: 'taste' },
      { in: 'app/taste/phone/taste.css', out: 'taste' },
    ],
    outdir: join(outDir, 'phone'),
    bundle: true,
    minify: true,
    format: 'iife',
    // phones people still carry: Safari 14 on iOS, Chrome 80 on Android
    target: ['es2019', 'safari14', 'chrome80', 'firefox78'],
    supported: { destructuring: true }, // Safari 14's fault with it is in a form we do not write
    charset: 'utf8',
    legalComments: 'none',
    logLevel: 'silent',
  })
}
