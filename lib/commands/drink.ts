import { readFileSync } from 'node:fs'
import { computeBuild } from '@/lib/drink/build'
import { trialFileSchema } from '@/lib/forms/trial-file'
import { readTrialFile } from '@/lib/forms/trial-of-file'

const BAD_INPUT = 2
/** as much as a house takes of a trial file by its form */
const MOST_BYTES = 1024 * 1024

/** One line on standard error, nothing on standard output. */
function refuse(line: string): never {
  process.stderr.write(`${line.replace(/\s+/g, ' ')}\n`)
  process.exit(BAD_INPUT)
}

function contentOf(path: string): string {
  const bytes = bytesOf(path)
  if (bytes.length > MOST_BYTES)
    refuse(`${path}: the whole file: has ${bytes.length} bytes; a trial file has ${MOST_BYTES} at most`)
  return bytes.toString('utf8')
}

function bytesOf(path: string): Buffer {
  try {
    return readFileSync(path === '-' ? 0 : path)
  } catch {
    return refuse(`${path}: cannot be read; give the path of a trial file, or - for standard input`)
  }
}

const [path, ...more] = process.argv.slice(2)
if (path === undefined || more.length > 0) refuse('use: npm run -s drink -- trial.json (or --schema)')
if (path === '--schema') {
  process.stdout.write(`${JSON.stringify(trialFileSchema(), null, 2)}\n`)
} else {
  const trial = readTrialFile(contentOf(path))
  if (!trial.ok) refuse(`${path}: ${trial.detail?.path ?? 'the whole file'}: ${trial.detail?.message ?? trial.reason}`)
  const figures = { kind: 'sipwright-figures', version: 1, name: trial.value.name, ...computeBuild(trial.value) }
  process.stdout.write(`${JSON.stringify(figures, null, 2)}\n`)
}
