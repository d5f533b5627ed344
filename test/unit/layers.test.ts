import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import ts from 'typescript'
import { describe, expect, test } from 'vitest'
import { doorsIn, doorsOfApp } from '@/test/support/doors'

const root = fileURLToPath(new URL('../..', import.meta.url))

/** Written by `prisma generate`, not by us. */
const GENERATED = 'lib/db/generated'

interface Import {
  readonly file: string
  /** as written */
  readonly from: string
  /** path inside the repository, null for a package */
  readonly target: string | null
  readonly typesOnly: boolean
}

interface Source {
  readonly file: string
  readonly tree: ts.SourceFile
}

const sources = ['lib', 'app']
  .flatMap((folder) => filesBelow(folder))
  .map((file): Source => {
    const text = readFileSync(join(root, file), 'utf8')
    return { file, tree: ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true) }
  })
const imports = sources.flatMap(importsOf)
const table = readLayers()

function filesBelow(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`
    if (path === GENERATED) return []
    if (entry.isDirectory()) return filesBelow(path)
    return /\.(tsx?|mjs)$/.test(entry.name) ? [path] : []
  })
}

function importsOf({ file, tree }: Source): Import[] {
  const found: Import[] = []
  const note = (specifier: ts.Expression | undefined, typesOnly: boolean): void => {
    if (!specifier || !ts.isStringLiteral(specifier)) return
    const from = specifier.text
    const inside = from.startsWith('@/') ? from.slice(2) : from.startsWith('.') ? relativeTarget(file, from) : null
    found.push({ file, from, target: inside, typesOnly })
  }
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) note(node.moduleSpecifier, onlyTypes(node.importClause))
    else if (ts.isExportDeclaration(node)) note(node.moduleSpecifier, node.isTypeOnly)
    else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) {
      if (ts.isStringLiteral(node.argument.literal)) note(node.argument.literal, true)
    } else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
      note(node.arguments[0], false)
    }
    ts.forEachChild(node, visit)
  }
  visit(tree)
  return found
}

function relativeTarget(file: string, from: string): string {
  return relative(root, resolve(root, dirname(file), from))
}

function onlyTypes(clause: ts.ImportClause | undefined): boolean {
  if (!clause) return false
  if (clause.phaseModifier === ts.SyntaxKind.TypeKeyword) return true
  const names = clause.namedBindings
  return !clause.name && !!names && ts.isNamedImports(names) && names.elements.every((one) => one.isTypeOnly)
}

/** The table under "## Layers" in DEVELOPERS.md. */
function readLayers() {
  const section = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8')
    .split(/^## /m)
    .find((part) => part.startsWith('Layers'))
  const list = (cell = ''): string[] =>
    cell
      .split(',')
      .map((one) => one.trim())
      .filter((one) => one !== '')
  return (section ?? '')
    .split('\n')
    .filter((line) => /^\| *(lib|app)/.test(line))
    .map((line) =>
      line
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim()),
    )
    .map(([room = '', values, types, packages]) => ({
      room,
      values: list(values),
      types: list(types),
      packages: list(packages),
    }))
}

function within(path: string, place: string): boolean {
  return path === place || path.startsWith(`${place}/`)
}

/** The narrowest room of the table that holds this file. */
function roomOf(path: string): string {
  const rooms = table.map(({ room }) => room).filter((room) => within(path, room))
  return rooms.toSorted((a, b) => b.length - a.length)[0] ?? ''
}

function packageOf(from: string): string {
  if (from.startsWith('node:')) return 'node:*'
  return from
    .split('/')
    .slice(0, from.startsWith('@') ? 2 : 1)
    .join('/')
}

const across = imports.filter(({ file, target }) => target !== null && roomOf(target) !== roomOf(file))
const packages = imports.filter(({ target }) => target === null)

test('every file under lib and app stands in a room of the table', () => {
  expect(table.length).toBeGreaterThan(9)
  expect(sources.filter(({ file }) => roomOf(file) === '').map(({ file }) => file)).toEqual([])
})

test('every import from another room goes to a room of the table', () => {
  const astray = across.filter(({ target }) => roomOf(target ?? '') === '')
  expect(astray.map(({ file, from }) => `${file} imports ${from}`)).toEqual([])
})

describe.each(table)('$room', ({ room, values, types, packages: allowed }) => {
  const own = across.filter(({ file }) => roomOf(file) === room)
  const mayUse = (place: string, target: string) => within(target, place) && within(place, roomOf(target))

  test('imports from no room that the table does not allow', () => {
    const forbidden = own.filter(({ target, typesOnly }) => {
      const places = typesOnly ? [...values, ...types] : values
      return !places.some((place) => mayUse(place, target ?? ''))
    })
    expect(forbidden.map(({ file, from, typesOnly }) => `${file} imports ${typesOnly ? 'type ' : ''}${from}`)).toEqual(
      [],
    )
  })

  test('uses every allowance, and for more than types where it is for more', () => {
    const used = (place: string, typesOnly: boolean) =>
      own.some((one) => one.typesOnly === typesOnly && mayUse(place, one.target ?? ''))
    expect(values.filter((place) => !used(place, false))).toEqual([])
    expect(types.filter((place) => !used(place, true))).toEqual([])
  })

  test('imports the packages the table names, and no others', () => {
    const found = new Set(packages.filter(({ file }) => roomOf(file) === room).map(({ from }) => packageOf(from)))
    expect([...found].toSorted()).toEqual(allowed.toSorted())
  })
})

describe('ways to import', () => {
  test('the same room by relative path, another room by @/', () => {
    const crooked = imports.filter(({ file, from, target }) => {
      // Next's folders make relative paths unreadable in app; plain .mjs runs in Node, which knows no @/.
      if (target === null || roomOf(file) === 'app' || file.endsWith('.mjs')) return false
      return from.startsWith('@/') === (roomOf(target) === roomOf(file))
    })
    expect(crooked.map(({ file, from }) => `${file} imports ${from}`)).toEqual([])
  })

  test('no barrel files: no index, and no file that only passes on what others hold', () => {
    const passing = sources.filter(
      ({ file, tree }) =>
        /\/index\.[a-z]+$/.test(file) ||
        (tree.statements.length > 0 &&
          tree.statements.every((one) => ts.isExportDeclaration(one) && one.moduleSpecifier !== undefined)),
    )
    expect(passing.map(({ file }) => file)).toEqual([])
  })
})

describe('no circle', () => {
  const places = new Set(sources.map(({ file }) => file))
  const fileOf = (target: string): string | undefined =>
    ['', '.ts', '.tsx', '.mjs'].map((end) => target + end).find((path) => places.has(path))
  const arrows = imports.flatMap(({ file, target }) => {
    const to = target === null ? undefined : fileOf(target)
    return to === undefined ? [] : [{ from: file, to }]
  })

  /** One way round for each place that can be reached from itself. */
  function circles(edges: readonly { from: string; to: string }[]): string[] {
    const next = new Map<string, string[]>()
    for (const { from, to } of edges) next.set(from, [...(next.get(from) ?? []), to])
    const done = new Set<string>()
    const found: string[] = []
    const walk = (place: string, way: readonly string[]): void => {
      if (way.includes(place)) found.push([...way.slice(way.indexOf(place)), place].join(' → '))
      if (done.has(place) || way.includes(place)) return
      for (const to of next.get(place) ?? []) walk(to, [...way, place])
      done.add(place)
    }
    for (const place of next.keys()) walk(place, [])
    return found
  }

  test('of files, types included', () => {
    expect(arrows.length).toBeGreaterThan(1000)
    expect(circles(arrows)).toEqual([])
  })

  test.each(['lib/tasks', 'lib/stats', 'lib/db'])('of the rooms inside %s', (room) => {
    const between = arrows
      .filter(({ from, to }) => within(from, room) && within(to, room))
      .map(({ from, to }) => ({ from: dirname(from), to: dirname(to) }))
      .filter(({ from, to }) => from !== to)
    expect(between.length).toBeGreaterThan(3)
    expect(circles(between)).toEqual([])
  })

  test('every room inside them has its line in the map', () => {
    const map = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8').split(/^## /m)[1] ?? ''
    const rooms = new Set(
      sources.map(({ file }) => dirname(file)).filter((path) => /^lib\/(tasks|stats|db)\//.test(path)),
    )
    expect([...rooms].filter((path) => !map.includes(`\`${path}/\``))).toEqual([])
  })
})

describe('what a room is for', () => {
  test.each(['lib/db', 'lib/auth', 'lib/tasks'])('every file of %s is for the server only', (room) => {
    const open = sources.filter(
      ({ file, tree }) => within(file, room) && !/^import 'server-only'$/m.test(firstLine(tree)),
    )
    expect(open.map(({ file }) => file)).toEqual([])
  })

  test.each(['lib/stats', 'lib/drink', 'lib/panel'])(
    '%s is pure: nothing of Node, no clock, no chance of its own',
    (room) => {
      const impure = sources.filter(({ file, tree }) => {
        if (!within(file, room)) return false
        const names = new Set(calledNames(tree))
        return (
          imports.some((one) => one.file === file && one.from.startsWith('node:')) ||
          ['Math.random', 'Date.now', 'new Date', 'performance.now', 'process.env', 'fetch'].some((name) =>
            names.has(name),
          )
        )
      })
      expect(impure.map(({ file }) => file)).toEqual([])
    },
  )
})

function firstLine(tree: ts.SourceFile): string {
  return tree.statements[0]?.getText().replace(/;$/, '') ?? ''
}

function calledNames(tree: ts.SourceFile): string[] {
  const names: string[] = []
  const visit = (node: ts.Node): void => {
    if (ts.isNewExpression(node) && (node.arguments ?? []).length === 0) names.push(`new ${node.expression.getText()}`)
    if (ts.isCallExpression(node)) names.push(node.expression.getText())
    if (ts.isPropertyAccessExpression(node)) names.push(node.getText())
    ts.forEachChild(node, visit)
  }
  visit(tree)
  return names
}

test('the database is written in one way: no other file begins a transaction', () => {
  const files = readdirSync('lib', { recursive: true, encoding: 'utf8' })
    .map((file) => `lib/${file.replaceAll('\\', '/')}`)
    // benchmarks and the torture lay and hold what no act does
    .filter((file) => /\.ts$/.test(file) && !/^lib\/(db\/generated|commands)\//.test(file))
  const begin = files.filter((file) =>
    /\$transaction\(/.test(readFileSync(file, 'utf8').replace(/\/\*\*?[^]*?\*\//g, '')),
  )
  expect(begin).toEqual(['lib/db/engine/transaction.ts'])
})

describe('doors', () => {
  const doors = doorsOfApp()
  const made = (file: string, text: string) =>
    doorsIn(file, ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true))

  test('every page, server action and route handler begins with a guard, in so many words', () => {
    expect(doors.length).toBeGreaterThan(120)
    expect(doors.filter(({ guard }) => guard === null).map(({ file, name }) => `${file} ${name}`)).toEqual([])
  })

  test('the guard of an act looks at every id and number that it was called with', () => {
    const unseen = doors.flatMap(({ kind, name, takes, looksAt }) => {
      const keys = kind === 'act' ? takes.filter(({ type }) => /^(string|number)$/.test(type)) : []
      const asked = ({ name: key, type }: (typeof keys)[number]) => (type === 'number' ? `numberKey(${key})` : key)
      return keys.filter((key) => !looksAt.includes(asked(key))).map((key) => `${name}(${key.name})`)
    })
    expect(unseen).toEqual([])
  })

  test('no act looks into a form by itself: what stands in its place need not be one', () => {
    const files = [...new Set(doors.filter(({ kind }) => kind === 'act').map(({ file }) => file))]
    expect(files.filter((file) => /\bform\.(get|getAll|has|entries)\(/.test(readFileSync(file, 'utf8')))).toEqual([])
  })

  test('a door that asks nothing, asks too late, or asks for a right that is no word of its own is seen', () => {
    const late = "export default async function Late() {\n  await tell()\n  await requireMember('home')\n}"
    const veiled = "'use server'\nexport const veiled = async (right: Right) => {\n  await requireMember(right)\n}"
    const inside = "export function Form() {\n  const send = async () => {\n    'use server'\n    await act()\n  }\n}"
    expect(made('app/late/page.tsx', late)).toMatchObject([{ kind: 'page', address: '/late', guard: null }])
    expect(made('app/x/actions.ts', veiled)).toMatchObject([{ kind: 'act', name: 'veiled', guard: null }])
    expect(made('app/x/form.tsx', inside)).toMatchObject([{ kind: 'act', guard: null }])
  })
})

test('a page is thin: sixty lines, as the manual says', () => {
  const pages = readdirSync('app', { recursive: true, encoding: 'utf8' }).filter((path) =>
    /(^|\/)page\.tsx$/.test(path),
  )
  expect(pages.length).toBeGreaterThan(30)
  const long = pages.flatMap((path) => {
    const lines = readFileSync(`app/${path}`, 'utf8').trimEnd().split('\n').length
    return lines > 60 ? [`${path}: ${lines}`] : []
  })
  expect(long).toEqual([])
})
