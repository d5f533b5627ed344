// What a taster's phone loads, and what a sheet for home carries: a small script and a style sheet each, made beside the app's own build.
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..')

/**
 * Writes `phone/taste.js`, `phone/taste.css` and the two of the sheet for home into a build folder. Call it after `next build`, which empties it.
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
      { in: 'app/home/file/main.ts', out: 'home' },
      { in: 'app/home/file/home.css', out: 'home' },
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
