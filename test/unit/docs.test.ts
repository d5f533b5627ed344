/** What the manual names is there: paths, commands, variables. */
import { existsSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const manuals = ['README.md', 'DEVELOPERS.md'] as const
const read = (name: string) => readFileSync(name, 'utf8')
const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> }

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
