/**
 * `npm run reset-password -- EMAIL`: prints a link with which that person sets a new password, once, within a day; by each
 * address under which the house can be reached, as far as this computer knows them.
 */
import { theEnvironment } from '@/lib/base/env'
import { openDatabase } from '@/lib/db/engine/client'
import { publicAddress } from '@/lib/tasks/house/public-address'
import { makeResetLink } from '@/lib/tasks/team/reset-password'
import { worldOf } from '@/lib/tasks/world'

const { databaseUrl, port, publicUrl } = theEnvironment()
const email = process.argv[2] ?? ''

async function run(): Promise<string | null> {
  const db = openDatabase(databaseUrl)
  try {
    return await makeResetLink(worldOf(db), email)
  } finally {
    await db.$disconnect()
  }
}

function sayLink(path: string): string {
  if (publicUrl) return `${publicUrl}${path}\n`
  const { choices } = publicAddress(null, null)
  const phones = choices.map((address) => `On the café’s network: ${address}${path}\n`)
  return [`On this computer: http://localhost:${port}${path}\n`, ...phones].join('')
}

if (!email.includes('@')) {
  process.stderr.write('Say whose password: npm run reset-password -- EMAIL\n')
  process.exitCode = 1
} else {
  const token = await run()
  if (token === null) {
    process.stderr.write(`Nobody here signs in as ${email}: check the spelling, and DATABASE_URL if you set one.\n`)
    process.exitCode = 1
  } else {
    process.stdout.write(sayLink(`/reset/${token}`))
  }
}
