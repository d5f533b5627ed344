import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { ended, keep } from './child.mjs'

/**
 * How Node is told to run one of our TypeScript files, in the graph where 'server-only' is allowed.
 *
 * @param {string} file
 * @param {readonly string[]} args
 */
export function typescriptWords(file, args) {
  return ['--import', 'tsx', '--conditions=react-server', file, ...args]
}

/**
 * @param {string} root
 * @param {string} file
 * @param {readonly string[]} args
 * @param {Readonly<Record<string, string>>} env
 * @returns {Promise<number>} exit code
 */
export function runTypescript(root, file, args, env) {
  const child = spawn(process.execPath, typescriptWords(file, args), {
    cwd: root,
    env: { ...process.env, ...env },
    stdio: 'inherit',
  })
  return ended(keep(child))
}

/**
 * @param {string} root
 * @param {string} file
 * @param {readonly string[]} args
 * @param {Readonly<Record<string, string>>} env
 * @returns {Promise<{ code: number, output: string, errors: string }>}
 */
export async function readTypescript(root, file, args, env) {
  const child = keep(
    spawn(process.execPath, typescriptWords(file, args), {
      cwd: root,
      env: { ...process.env, ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
    }),
  )
  let [output, errors] = ['', '']
  child.stdout.on('data', (bytes) => (output += bytes))
  child.stderr.on('data', (bytes) => (errors += bytes))
  const [code] = await once(child, 'close')
  return { code: typeof code === 'number' ? code : 1, output, errors }
}
