/** What the manual names is there: paths, commands, variables. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { basename } from 'node:path'
import { expect, test } from 'vitest'
import { sayRight } from '@/app/(house)/team/say-rights'
import { may, rights, roles } from '@/lib/auth/rights'
import { SUITES } from '@/lib/commands/test/suites.mjs'

const manuals = ['README.md', 'DEVELOPERS.md'] as const
const read = (name: string) => readFileSync(name, 'utf8')
const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> }

const cellsOf = (row: string) =>
  row
    .split('|')
    .slice(1, -1)
    .map((cell) => cell.trim())

test.each(manuals)('every path that %s names is there', (name) => {
  const named = [
    ...read(name).matchAll(/`((?:app|lib|test|prisma)\/[^`\s]*)`|\]\(((?:app|lib|test|prisma)\/[^)\s]+)\)/g),
  ]
  const paths = named.map((match) => match[1] ?? match[2] ?? '')
  expect(paths.length).toBeGreaterThan(1)
  expect(paths.filter((path) => !existsSync(path) && !existsSync(`${path}.ts`))).toEqual([])
})

test.each(manuals)('every command that %s names is one of ours', (name) => {
  const named = [...read(name).matchAll(/npm (?:run (?:-s )?)([\w-]+)/g)].map((match) => match[1] ?? '')
  expect(named.filter((script) => !(script in scripts))).toEqual([])
})

test('the two commands stand on the first screen of the README', () => {
  const top = read('README.md').split('\n').slice(0, 24).join('\n')
  expect(top).toContain('npm start')
  expect(top).toContain('npm test')
})

test('no manual names a folder of one machine', () => {
  for (const name of manuals) expect(read(name)).not.toMatch(/(^|[^\w])\/(home|root|tmp|Users)\//)
})

test('the stylesheet’s tokens are the only file that names colours in hexadecimal', () => {
  expect(read('app/globals.css').replace(/@media print[\s\S]*/, '')).not.toMatch(/#[0-9a-f]{6}\b/i)
})

const sources = ['app', 'lib', 'prisma', 'test'].flatMap((room) =>
  readdirSync(room, { recursive: true, encoding: 'utf8' }).map((file) => `${room}/${file}`),
)

test.each(manuals)('every file that %s names by its name alone is somewhere', (name) => {
  const named = [...read(name).matchAll(/`([\w-]+\.(?:tsx?|mjs|css|json|md|prisma))`/g)].map((match) => match[1] ?? '')
  const known = new Set([...sources.map((file) => basename(file)), ...readdirSync('.')])
  expect(named.filter((file) => !known.has(file))).toEqual([])
})

test('the table of suites has the suites that npm test runs, in their order', () => {
  const table = /\n\| suite [\s\S]*?\n\n/.exec(read('DEVELOPERS.md'))?.[0] ?? ''
  const rows = [...table.matchAll(/^\| ([a-z][a-z0-9, ]*?) +\|/gm)].map((match) => match[1] ?? '').slice(1)
  expect(rows.flatMap((row) => row.split(', '))).toEqual(SUITES.map(({ name }) => name))
})

test('the verbs that README names are those of the stats command', () => {
  const named = /Verbs: ([a-z,\s]+)\./.exec(read('README.md'))?.[1]?.split(/,\s*/) ?? []
  const there = readdirSync('lib/commands/stats/verbs').map((file) => file.replace('.ts', ''))
  expect(named.toSorted()).toEqual(there.toSorted())
})

test('the table of who may what is the table of rights', () => {
  const table = /\n\| right [\s\S]*?\n\n/.exec(read('DEVELOPERS.md'))?.[0] ?? ''
  const [heads, , ...rows] = table.trim().split('\n').map(cellsOf)
  expect(heads).toEqual(['right', 'what it lets one do', ...roles])
  expect(rows).toEqual(
    rights.map((right) => [right, sayRight[right], ...roles.map((role) => (may(role, right) ? 'yes' : ''))]),
  )
})

test('each row of who might want what names what stops them, and a test that tries it', () => {
  const table = /\n\| who [\s\S]*?\n\n/.exec(read('DEVELOPERS.md'))?.[0] ?? ''
  const rows = table.trim().split('\n').map(cellsOf).slice(2)
  expect(rows.length).toBeGreaterThan(12)
  const named = (cell: string | undefined, files: RegExp) =>
    [...(cell ?? '').matchAll(/`([^`]+)`/g)].map((match) => match[1] ?? '').filter((path) => files.test(path))
  const idle = rows.filter(([, , stops, tried]) => {
    const tests = named(tried, /^test\/.*\.(test|spec)\.tsx?$/)
    const stopping = named(stops, /^(lib|app)\//)
    return [tests, stopping].some((paths) => paths.length === 0 || !paths.every((path) => existsSync(path)))
  })
  expect(idle.map(([who, wants]) => `${who}: ${wants}`)).toEqual([])
})

test('every setting that README names is read somewhere', () => {
  const named = [...read('README.md').matchAll(/^\| `([A-Z_]+)`/gm)].map((match) => match[1] ?? '')
  expect(named.length).toBeGreaterThan(2)
  const code = sources.filter((file) => /^lib\/(base|commands)\/.*\.(ts|mjs)$/.test(file)).map(read)
  expect(named.filter((setting) => !code.some((text) => text.includes(setting)))).toEqual([])
})
