import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { headersBesideNode, holdsAll } from '@/lib/commands/start/install.mjs'

const lock = (packages: Record<string, { version?: string; optional?: boolean }>) => Object.freeze({ packages })

describe('what lies in node_modules is believed', () => {
  const asked = lock({
    '': {},
    'node_modules/a': { version: '1.0.0' },
    'node_modules/b': { version: '2.0.0', optional: true },
  })

  test('when every package has the version asked for', () => {
    expect(
      holdsAll(asked, lock({ 'node_modules/a': { version: '1.0.0' }, 'node_modules/b': { version: '2.0.0' } })),
    ).toBe(true)
  })

  test('when only an optional one is missing', () => {
    expect(holdsAll(asked, lock({ 'node_modules/a': { version: '1.0.0' } }))).toBe(true)
  })

  test('but not when one is missing or of another version', () => {
    expect(holdsAll(asked, lock({}))).toBe(false)
    expect(holdsAll(asked, lock({ 'node_modules/a': { version: '1.0.1' } }))).toBe(false)
    expect(
      holdsAll(asked, lock({ 'node_modules/a': { version: '1.0.0' }, 'node_modules/b': { version: '1.9.0' } })),
    ).toBe(false)
  })
})

describe('headers beside Node', () => {
  let prefix: string

  beforeEach(() => {
    prefix = mkdtempSync(join(tmpdir(), 'sipwright-node-'))
    mkdirSync(join(prefix, 'include', 'node'), { recursive: true })
    vi.stubEnv('npm_config_nodedir', '')
  })

  afterEach(() => {
    vi.unstubAllEnvs()
    rmSync(prefix, { recursive: true, force: true })
  })

  const write = (major: string, minor: string, patch: string) =>
    writeFileSync(
      join(prefix, 'include', 'node', 'node_version.h'),
      `#define NODE_MAJOR_VERSION ${major}\n#define NODE_MINOR_VERSION ${minor}\n#define NODE_PATCH_VERSION ${patch}\n`,
    )

  test('are used when they belong to the Node that runs', () => {
    const [major = '', minor = '', patch = ''] = process.versions.node.split('.')
    write(major, minor, patch)
    expect(headersBesideNode(join(prefix, 'bin', 'node'))).toEqual({ npm_config_nodedir: prefix })
  })

  test('are left alone when they belong to another', () => {
    write('4', '0', '0')
    expect(headersBesideNode(join(prefix, 'bin', 'node'))).toEqual({})
  })

  test('are not needed when there are none', () => {
    expect(headersBesideNode('/nowhere/bin/node')).toEqual({})
  })
})
