/**
 * Brings a database up to date and is killed outright at a chosen write of the code steps: run as a process of its own.
 *
 *     node --import tsx --conditions=react-server test/support/upgrade-and-die.ts URL WRITE
 *
 * WRITE counts from 0; "end" is after the last one, before the steps are done.
 */
import { migrate, type CodeStep, type CodeSteps } from '@/lib/db/engine/migrate'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'

const [url = '', when = ''] = process.argv.slice(2)
const die = () => void process.kill(process.pid, 'SIGKILL')
let writes = 0

const dying = (step: CodeStep): CodeStep => {
  return (db, now) => {
    const run: typeof db.run = (sql, ...values) => {
      if (String(writes++) === when) die()
      db.run(sql, ...values)
    }
    step({ all: (sql, ...values) => db.all(sql, ...values), run }, now)
    if (when === 'end') die()
  }
}

const steps: CodeSteps = Object.fromEntries(Object.entries(codeSteps).map(([name, step]) => [name, dying(step)]))
await migrate(url, steps)
