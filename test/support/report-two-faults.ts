/** Run as a process of its own whose output may be lost: reports two faults and says what it was told. */
import { reportFault } from '@/lib/tasks/house/report-fault'

process.stdout.on('error', () => undefined)
const first = reportFault(new Error('one'))
setTimeout(() => {
  const second = reportFault(new Error('two'))
  setTimeout(() => process.stderr.write(`told ${first} ${second}\n`), 50)
}, 50)
