/** Our commands as the shell starts them. */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { createServer, type Server } from 'node:net'
import { networkInterfaces, tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { hashToken } from '@/lib/auth/link-token'
import { takeLock } from '@/lib/commands/start/lock.mjs'
import { typescriptWords } from '@/lib/commands/start/typescript.mjs'
import { exactDump } from '../support/dump'
import { freshDatabase, type FreshDatabase } from '../support/fresh-database'

let fresh: FreshDatabase

beforeEach(async () => {
  fresh = await freshDatabase()
})

afterEach(async () => {
  await fresh.close()
})

type Ended = { readonly code: unknown; readonly output: string; readonly errors: string }

async function run(words: readonly string[], variables: Readonly<Record<string, string>> = {}): Promise<Ended> {
  const env = { ...process.env, DATABASE_URL: fresh.url, PORT: '', PUBLIC_URL: '', AUTH_SECRET: '', ...variables }
  const child = spawn(process.execPath, words, { env, stdio: ['ignore', 'pipe', 'pipe'] })
  let [output, errors] = ['', '']
  child.stdout.on('data', (bytes) => (output += bytes))
  child.stderr.on('data', (bytes) => (errors += bytes))
  const [code] = await once(child, 'close')
  return { code, output, errors }
}

const oneLine = expect.stringMatching(/^[^\n]+\n$/)

test.each([
  ['stats', ['tasters', 'acceptance', '--sd', '1.2', '--difference', '1', '--cups', '3'], 0],
  ['stats', ['tasters', 'acceptance', '--sd', 'much'], 2],
  ['drink', ['lib/commands/example-trial.json'], 0],
  ['drink', [], 2],
])('%s %j, compiled, says what its source says', async (name, words, code) => {
  const compiled = await run(['lib/commands/compiled.mjs', name, ...words])
  const again = await run(['lib/commands/compiled.mjs', name, ...words])
  expect(compiled.code).toBe(code)
  expect(again).toEqual(compiled)
  expect(await run(typescriptWords(`lib/commands/${name}.ts`, words))).toEqual(compiled)
})

describe('npm run backup and npm run restore', () => {
  let folder: string
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'sipwright-commands-'))
  })
  afterEach(() => rmSync(folder, { recursive: true, force: true }))

  const apart = (command: string, words: readonly string[], variables: Readonly<Record<string, string>> = {}) =>
    run(['lib/commands/start.mjs', '--run-apart', `lib/commands/${command}.ts`, ...words], {
      INIT_CWD: folder,
      BACKUPS: '',
      BACKUPS_KEPT: '',
      ...variables,
    })
  const elsewhere = () => ({ DATABASE_URL: `file:${join(folder, 'elsewhere.db')}` })

  test('a house goes into a file and comes back elsewhere; nothing is overwritten unasked', async () => {
    const made = await apart('backup', ['kept.zip'])
    expect(made).toEqual({ code: 0, output: oneLine, errors: '' })
    expect(made.output).toContain(`Backed up and read back: ${join(folder, 'kept.zip')}`)
    expect(await apart('backup', ['kept.zip'])).toEqual({ code: 1, output: '', errors: oneLine })

    const back = await apart('restore', ['kept.zip'], elsewhere())
    expect(back).toEqual({ code: 0, output: oneLine, errors: '' })
    expect(exactDump(join(folder, 'elsewhere.db'))).toEqual(exactDump(fresh.file))
    const again = await apart('restore', ['kept.zip'], elsewhere())
    expect(again).toEqual({ code: 1, output: '', errors: oneLine })
    expect(again.errors).toContain('--overwrite')
    const over = await apart('restore', ['--overwrite', 'kept.zip'], elsewhere())
    expect(over).toEqual({ code: 0, output: oneLine, errors: '' })
    expect(over.output).toContain(join(folder, 'copies'))
    expect(readdirSync(folder).sort()).toEqual(['copies', 'elsewhere.db', 'kept.zip'])
  })

  test('a restore waits for no house: while one runs on the database it is refused', async () => {
    expect(await apart('backup', ['kept.zip'])).toMatchObject({ code: 0 })
    const lock = takeLock(join(folder, 'elsewhere.db.lock'), 'http://kiosk.example:3000 ')
    expect(lock.taken).toBe(true)
    const { code, output, errors } = await apart('restore', ['kept.zip', '--overwrite'], elsewhere())
    expect({ code, output, errors }).toEqual({ code: 1, output: '', errors: oneLine })
    expect(errors).toContain('http://kiosk.example:3000')
    expect(existsSync(join(folder, 'elsewhere.db'))).toBe(false)
  })

  test('--rotate keeps as many as are asked for in the folder that is set', async () => {
    const keep = { BACKUPS: join(folder, 'kept'), BACKUPS_KEPT: '1' }
    mkdirSync(keep.BACKUPS)
    writeFileSync(join(keep.BACKUPS, 'sipwright-2025-01-01T00-00-00Z.zip'), 'an old one')
    const { code, output, errors } = await apart('backup', ['--rotate'], keep)
    expect({ code, output, errors }).toEqual({ code: 0, output: oneLine, errors: '' })
    expect(output).toContain('Removed: sipwright-2025-01-01T00-00-00Z.zip')
    expect(readdirSync(keep.BACKUPS)).toEqual([expect.stringMatching(/^sipwright-20.*Z\.zip$/)])
  })

  test.each([
    ['backup', []],
    ['backup', ['a.zip', 'b.zip']],
    ['backup', ['--rotate']],
    ['backup', ['--all']],
    ['restore', []],
    ['restore', ['--overwrite']],
    ['restore', ['--force', 'a.zip']],
    ['restore', ['nowhere.zip']],
  ])('%s %j is refused in one line, and makes nothing', async (command, words) => {
    expect(await apart(command, words, elsewhere())).toEqual({ code: 1, output: '', errors: oneLine })
    expect(readdirSync(folder)).toEqual([])
  })
})

describe('npm start says what is wrong in one line', () => {
  test.each([
    ['PORT', 'three', 'PORT must be'],
    ['DATABASE_URL', 'mysql://kiosk', 'DATABASE_URL must be'],
    ['PUBLIC_URL', 'kiosk', 'PUBLIC_URL must be'],
    ['AUTH_SECRET', 'short', 'AUTH_SECRET must'],
  ])('when %s is %s', async (name, value, words) => {
    const { code, output, errors } = await run(['lib/commands/start.mjs'], { [name]: value })
    expect({ code, output, errors }).toEqual({ code: 1, output: '', errors: oneLine })
    expect(errors).toContain(words)
  })

  test('when it is asked for something it does not know', async () => {
    expect(await run(['lib/commands/start.mjs', '--devel'])).toMatchObject({ code: 1, output: '', errors: oneLine })
  })

  test('when another program has the port', async () => {
    const other: Server = createServer().listen(0)
    await once(other, 'listening')
    const address = other.address()
    const port = typeof address === 'object' && address !== null ? address.port : 0
    const { code, output, errors } = await run(['lib/commands/start.mjs'], { PORT: String(port) })
    other.close()
    expect({ code, output, errors }).toEqual({ code: 1, output: '', errors: oneLine })
    expect(errors).toContain(`Port ${port} is used by another program`)
  })
})

test('a database from a newer version is refused in one line', async () => {
  await fresh.db.$executeRawUnsafe(`UPDATE _prisma_migrations SET migration_name = '9999-from-tomorrow'`)
  await fresh.db.$disconnect()
  const { code, output } = await run(typescriptWords('lib/commands/prepare.ts', ['--offer-set-up']))
  expect({ code, output }).toEqual({ code: 0, output: oneLine })
  expect(JSON.parse(output)).toEqual({ ok: false, problem: expect.stringContaining('newer version') })
})

test('npm run setup-link prints no link where it would be kept, and makes none', async () => {
  const { code, output, errors } = await run(typescriptWords('lib/commands/setup-link.ts', []))
  expect({ code, output, errors }).toEqual({ code: 1, output: '', errors: oneLine })
  expect(errors).toContain('in a terminal')
  expect(await fresh.db.oneTimeLink.count()).toBe(0)
})

test('npm run setup-link prints a fresh link where its reader may see it, as long as nobody has an account', async () => {
  const variables = { SETUP_LINK: 'print', PORT: '3919' }
  const { code, output } = await run(typescriptWords('lib/commands/setup-link.ts', []), variables)
  const token = /^http:\/\/localhost:3919\/setup\/([\w-]{43})\n$/.exec(output)?.[1] ?? ''
  expect(code).toBe(0)
  expect(await fresh.db.oneTimeLink.findMany()).toMatchObject([{ kind: 'setup', tokenHash: hashToken(token) }])
  await fresh.db.user.create({
    data: { id: 'u', email: 'noor@example.test', name: 'Noor', passwordHash: 'x', createdAt: new Date(0) },
  })
  const later = await run(typescriptWords('lib/commands/setup-link.ts', []), variables)
  expect(later).toMatchObject({ code: 1, output: '', errors: oneLine })
})

test('what npm start asks of a new database makes a link only when one is asked for', async () => {
  const { output } = await run(typescriptWords('lib/commands/prepare.ts', []))
  expect(JSON.parse(output)).toMatchObject({ ok: true, setUp: { isDone: false, token: null } })
  expect(await fresh.db.oneTimeLink.count()).toBe(0)
})

test('npm run reset-password prints a link whose token is nowhere in the database', async () => {
  await fresh.db.user.create({
    data: { id: 'u', email: 'noor@example.test', name: 'Noor', passwordHash: 'x', createdAt: new Date(0) },
  })
  const { code, output } = await run(typescriptWords('lib/commands/reset-password.ts', ['Noor@example.test']), {
    PORT: '3919',
  })
  const token = /^On this computer: http:\/\/localhost:3919\/reset\/([\w-]{43})\n/.exec(output)?.[1] ?? ''
  expect(code).toBe(0)
  // and one by each address of this computer that a phone could reach
  const network = Object.values(networkInterfaces()).flatMap((addresses) => addresses ?? [])
  const reachable = network.filter(({ family, internal }) => family === 'IPv4' && !internal)
  for (const { address } of reachable)
    expect(output).toContain(`On the café’s network: http://${address}:3919/reset/${token}\n`)
  expect(output.trimEnd().split('\n')).toHaveLength(1 + reachable.length)
  const links = await fresh.db.oneTimeLink.findMany()
  expect(links).toMatchObject([{ kind: 'reset', email: 'noor@example.test', tokenHash: hashToken(token) }])
  expect(JSON.stringify(links)).not.toContain(token)
})

test('npm run reset-password prints the address of PUBLIC_URL alone where there is one', async () => {
  await fresh.db.user.create({
    data: { id: 'u', email: 'noor@example.test', name: 'Noor', passwordHash: 'x', createdAt: new Date(0) },
  })
  const { output } = await run(typescriptWords('lib/commands/reset-password.ts', ['noor@example.test']), {
    PUBLIC_URL: 'https://kiosk.test',
  })
  expect(output).toMatch(/^https:\/\/kiosk\.test\/reset\/[\w-]{43}\n$/)
})

test('npm run reset-password for an address that nobody has is said, and makes no link', async () => {
  const { code, output, errors } = await run(typescriptWords('lib/commands/reset-password.ts', ['ghost@example.test']))
  expect({ code, output, errors }).toEqual({ code: 1, output: '', errors: oneLine })
  expect(await fresh.db.oneTimeLink.count()).toBe(0)
})
