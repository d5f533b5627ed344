import { readFileSync } from 'node:fs'
import { runStats } from './stats/run-stats'

process.exitCode = await runStats(process.argv.slice(2), {
  read: (path) => readFileSync(path === '-' ? 0 : path),
  out: (text) => process.stdout.write(text),
  err: (line) => process.stderr.write(`${line}\n`),
})
