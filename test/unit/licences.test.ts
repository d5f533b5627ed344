/**
 * Under which licence everything stands that an installed house runs on: production packages of `package-lock.json`, with
 * all they bring along. What another machine would install instead (binaries of its own system) is read there too.
 */
import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

interface Package {
  readonly name: string
  /** as stated, an SPDX expression in most; null where it states none */
  readonly licence: string | null
}

/** They ask for no more than that their words stay with the copy: names of the SPDX list, https://spdx.org/licenses */
const PERMISSIVE = new Set(
  'MIT ISC 0BSD BSD-2-Clause BSD-3-Clause Apache-2.0 BlueOak-1.0.0 Unlicense CC0-1.0 Python-2.0'.split(' '),
)

interface Looked {
  /** a package, or with * at its end those whose names begin so */
  readonly packages: string
  readonly licence: string | null
  /** why it may be here */
  readonly why: string
}

const SHARP = 'pictures, for a part of Next that no page of ours uses (next/image)'
const STUDIO = 'a viewer of tables inside the prisma command; we never start it, and no phone or page receives it'

const LOOKED_AT: readonly Looked[] = [
  {
    packages: '@fontsource-variable/atkinson-hyperlegible-next',
    licence: 'OFL-1.1',
    why: 'the font of every page: may be served along with a program, unchanged and never sold by itself, as it is',
  },
  {
    packages: '@img/sharp-libvips-*',
    licence: 'LGPL-3.0-or-later',
    why: `${SHARP}: a library of its own that is linked when it runs and can be replaced; unchanged`,
  },
  {
    packages: '@img/sharp-wasm32',
    licence: 'Apache-2.0 AND LGPL-3.0-or-later AND MIT',
    why: `${SHARP}: the same library for machines without a binary; a package of its own, unchanged`,
  },
  {
    packages: '@img/sharp-win32-*',
    licence: 'Apache-2.0 AND LGPL-3.0-or-later',
    why: `${SHARP}: the same library beside its binding, on Windows; a file of its own, unchanged`,
  },
  {
    packages: '@stdlib/math-base-special-*',
    licence: 'Apache-2.0 AND BSL-1.0',
    why: 'parts follow Boost’s sources; the Boost licence asks only that its words stay with the sources, and they do',
  },
  {
    packages: 'caniuse-lite',
    licence: 'CC-BY-4.0',
    why: 'a table of browsers that Next reads while it builds; named as its own, unchanged, and served to nobody',
  },
  { packages: 'elkjs', licence: 'EPL-2.0', why: `${STUDIO}; unchanged, and its sources are public` },
  {
    packages: 'seq-queue',
    licence: null,
    why: 'the words of MIT lie in its LICENSE; the prisma command brings it for a database that we do not use',
  },
]

/** True for "MIT", "(MIT OR X)" and "MIT AND ISC"; what mixes both, or is not written so, is for a person to read. */
function isPermissive(licence: string | null): boolean {
  const words = (licence ?? '').replace(/^\((.*)\)$/, '$1')
  const either = words.split(/ or /i)
  const all = words.split(/ and /i)
  return either.length > 1 ? either.some((one) => PERMISSIVE.has(one)) : all.every((one) => PERMISSIVE.has(one))
}

function isMeant({ packages, licence }: Looked, one: Package): boolean {
  const isNamed = packages.endsWith('*') ? one.name.startsWith(packages.slice(0, -1)) : one.name === packages
  return isNamed && one.licence === licence
}

/** Packages that nobody has looked at, and rows of the table that are about no package. */
function compare(packages: readonly Package[], table: readonly Looked[]) {
  const strict = packages.filter(({ licence }) => !isPermissive(licence))
  return {
    unlisted: strict.filter((one) => !table.some((row) => isMeant(row, one))),
    gone: table.filter((row) => !strict.some((one) => isMeant(row, one))).map((row) => row.packages),
  }
}

interface Locked {
  readonly license?: string
  readonly dev?: boolean
  readonly optional?: boolean
}

const { packages: locked } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
  packages: Record<string, Locked>
}

/** npm marks as `dev` what nothing of production asks for; the empty path is this project. */
const production = Object.entries(locked)
  .filter(([path, { dev }]) => path !== '' && dev !== true)
  .map(([path, { license, optional }]) => {
    const isHere = existsSync(`${path}/package.json`)
    const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length)
    const stated = isHere ? statedBy(path) : (license ?? null)
    return { path, name, isHere, optional, locked: license ?? null, licence: stated }
  })

function statedBy(path: string): string | null {
  const { license } = JSON.parse(readFileSync(`${path}/package.json`, 'utf8')) as { license?: unknown }
  return typeof license === 'string' ? license : null
}

test('every package of an installed house is permissive, or somebody looked at its licence', () => {
  expect(production.length).toBeGreaterThan(300)
  expect(compare(production, LOOKED_AT).unlisted.map(({ name, licence }) => `${name}: ${licence}`)).toEqual([])
})

test('whatever was looked at is still there, under that licence', () => {
  expect(compare(production, LOOKED_AT).gone).toEqual([])
})

test('only what belongs to another machine is not here, and what is here says what the lock file says', () => {
  expect(production.filter(({ isHere, optional }) => !isHere && optional !== true).map(({ path }) => path)).toEqual([])
  const told = production.filter(({ locked: said, licence }) => said !== licence)
  expect(told.map(({ path, licence }) => `${path}: ${licence}`)).toEqual([])
})

describe('how they are compared', () => {
  test.each(['MIT', '(MIT OR WTFPL)', '(BSD-2-Clause OR MIT OR Apache-2.0)', 'MIT AND ISC AND BSD-3-Clause'])(
    '%s is permissive',
    (licence) => {
      expect(isPermissive(licence)).toBe(true)
    },
  )

  test.each([null, '', 'GPL-3.0-only', 'MIT AND GPL-2.0-only', 'SEE LICENSE IN x', '(MIT OR X) AND GPL-2.0-only'])(
    '%j is for a person to read',
    (licence) => {
      expect(isPermissive(licence)).toBe(false)
    },
  )

  const row = { packages: 'made-up-*', licence: 'EPL-2.0', why: 'for this test' }

  test('a package that no row names is told, and so is one whose licence changed', () => {
    const packages = [
      { name: 'made-up-syrup', licence: 'EPL-2.0' },
      { name: 'made-up-ice', licence: 'AGPL-3.0-only' },
      { name: 'other', licence: 'EPL-2.0' },
    ]
    expect(compare(packages, [row])).toEqual({ unlisted: packages.slice(1), gone: [] })
  })

  test('a row without a package is told, and so is one whose package became permissive', () => {
    expect(compare([{ name: 'made-up-ice', licence: 'MIT' }], [row])).toEqual({ unlisted: [], gone: ['made-up-*'] })
  })
})
