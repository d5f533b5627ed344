/** What is backed up comes back, every value of it; what is damaged is refused in words and changes nothing. */
import { execFileSync } from 'node:child_process'
import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Ajv2020 from 'ajv/dist/2020'
import Database from 'better-sqlite3'
import { parse } from 'csv-parse/sync'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { backupName } from '@/lib/base/backup-name.mjs'
import { migrate } from '@/lib/db/engine/migrate'
import { listMigrations } from '@/lib/db/engine/schema-engine'
import { readWholeFile } from '@/lib/db/engine/whole-file'
import { makeBackup } from '@/lib/tasks/backup/make-backup'
import { openArchive } from '@/lib/tasks/backup/open-archive'
import { layArchive, restoreBackup } from '@/lib/tasks/backup/restore-backup'
import { rotateBackups } from '@/lib/tasks/backup/rotate-backups'
import { foundDemoHouse } from '@/lib/tasks/house/found-demo-house'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'
import { worldOf } from '@/lib/tasks/world'
import { manifestOf, overwrite, pack, putFile, putManifest, unpack, type Files } from '../support/archive'
import { exactDump } from '../support/dump'
import { freshDatabase } from '../support/fresh-database'
import { LANDED } from '../support/landed'

const noon = new Date('2026-11-27T12:00:00Z')
const at = (hours: number) => new Date(noon.getTime() + hours * 3_600_000)

let shared: string
/** a demo house with values that are easily lost, and a backup of it */
let demo: string
let demoBackup: string

beforeAll(async () => {
  shared = mkdtempSync(join(tmpdir(), 'sipwright-backup-'))
  demo = join(shared, 'demo.db')
  demoBackup = join(shared, 'demo.zip')
  const fresh = await freshDatabase()
  await foundDemoHouse(worldOf(fresh.db))
  await fresh.db.$disconnect()
  copyFileSync(fresh.file, demo)
  await fresh.close()
  layOddValues(demo)
  await makeBackup(demo, demoBackup, noon)
})
afterAll(() => rmSync(shared, { recursive: true, force: true }))

let folder: string
let target: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-restore-'))
  target = join(folder, 'kiosk.db')
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const oddTexts = [
  '',
  ' ',
  '007',
  '1e3',
  '9007199254740993',
  'null',
  'true',
  '{"integer":"7"}',
  '=1+1',
  '"quoted", with a comma',
  'two\nlines\r\nand a third',
  'Crème brûlée, 冰咖啡, قهوة, 🧊☕️, e\u0301',
  'before\u0000after\u2028end',
]

function layOddValues(file: string): void {
  const db = new Database(file)
  const cafe = db.prepare<[], { id: string }>('SELECT id FROM Cafe').get()?.id
  const add = db.prepare(
    `INSERT INTO Vessel (id, cafeId, name, brimUl, isDemo, createdAt, archivedAt) VALUES (?, ?, ?, ?, ?, ?, ?)`,
  )
  oddTexts.forEach((text, place) =>
    add.run(`odd-${place}`, cafe, text, 200_000, 0, '2026-11-27T09:00:00.000+00:00', null),
  )
  const numbers = [0n, -1n, 9007199254740991n, 9007199254740993n, 9223372036854775807n, -9223372036854775808n]
  numbers.forEach((number, place) => add.run(`number-${place}`, cafe, `number ${place}`, number, 1, 1764234000000n, ''))
  add.run('fraction', cafe, 'fraction', 0.1 + 0.2, 2n, '', 1.5) // what SQLite keeps although no column asks for it
  add.run('bytes', cafe, 'bytes', Buffer.from([0, 255, 10]), 0, '', 'never')
  add.run('text', cafe, 'text', 'plenty', 0, '', null)
  db.close()
}

const restored = (archive = demoBackup, overwriting = false) =>
  restoreBackup({ archive, database: target, overwrite: overwriting, now: noon }, [])

describe('everything comes back', () => {
  test('of a demo house: every table, row and value, of its kind', async () => {
    const { rows, applied, copy, complaints } = await restored()
    const [before, after] = [exactDump(demo), exactDump(target)]
    expect(after).toEqual(before)
    expect(before.size).toBeGreaterThan(30)
    expect(rows).toBe([...before.values()].flat().length)
    expect({ applied, copy, complaints }).toEqual({ applied: [], copy: null, complaints: [] })
    expect(statSync(target).mode & 0o777).toBe(0o600)
    expect(readdirSync(folder).filter((name) => name.startsWith('kiosk'))).toEqual(['kiosk.db'])
  })

  test.each(LANDED)(
    'of %s: as that version left it, and brought up to date as the database itself is',
    async (name) => {
      const landed = join(folder, 'landed.db')
      copyFileSync(join('test/fixtures', name), landed)
      const backup = join(folder, 'landed.zip')
      await makeBackup(landed, backup, noon)

      const archive = await openArchive(backup)
      await layArchive(archive, join(folder, 'as-it-was.db'), backup)
      archive.close()
      expect(exactDump(join(folder, 'as-it-was.db'))).toEqual(exactDump(landed))

      const { applied } = await restored(backup)
      await migrate(`file:${landed}`, codeSteps, noon)
      expect(exactDump(target)).toEqual(exactDump(landed))
      expect(applied).toEqual(listMigrations().slice(archive.manifest.migrations.length))
      expect(readWholeFile(target).migrations).toEqual(listMigrations())
    },
  )

  test('what is done after every restore sees the database whole, and brought up to date, before anybody else', async () => {
    const seen: unknown[] = []
    await restoreBackup({ archive: demoBackup, database: target, overwrite: false, now: noon }, [
      async (world, { madeAt }) => {
        seen.push(madeAt, existsSync(target))
        await world.db.cafe.updateMany({ data: { name: 'Written by a step' } })
      },
    ])
    expect(seen).toEqual([noon.toISOString(), false])
    const db = new Database(target, { readonly: true })
    expect(db.prepare('SELECT name FROM Cafe').all()).toEqual([{ name: 'Written by a step' }])
    db.close()
  })

  test('what does not hold in it comes back too, and is named', async () => {
    const torn = join(folder, 'torn.db')
    copyFileSync(demo, torn)
    const db = new Database(torn)
    db.exec(`UPDATE Score SET value = 10 WHERE id = (SELECT min(id) FROM Score)`)
    db.close()
    await makeBackup(torn, join(folder, 'torn.zip'), noon)
    const { complaints } = await restored(join(folder, 'torn.zip'))
    expect(complaints).toEqual([{ code: 'score-off-the-scale', values: expect.objectContaining({ value: '10' }) }])
  })

  test('a step that fails refuses the whole restore', async () => {
    const fails = () => Promise.reject(new Error('broken'))
    const order = { archive: demoBackup, database: target, overwrite: false, now: noon }
    await expect(restoreBackup(order, [fails])).rejects.toThrow('broken')
    expect(existsSync(target)).toBe(false)
  })
})

describe('the archive is open', () => {
  test('its manifest and every row of it are valid by the schema in the repository', async () => {
    const schema: object = JSON.parse(readFileSync('lib/forms/backup.schema.json', 'utf8'))
    const ajv = new Ajv2020({ strict: true, formats: { 'date-time': true } }).addSchema(schema, 'backup')
    const isRow = ajv.compile({ $ref: 'backup#/$defs/row' })
    const files = await unpack(demoBackup)
    const manifest = manifestOf(files)
    expect(ajv.validate('backup', manifest)).toBe(true)
    let rows = 0
    for (const table of manifest.tables) {
      for (const line of files.get(table.jsonl)?.toString('utf8').split('\n').slice(0, -1) ?? []) {
        expect(isRow(JSON.parse(line)), line).toBe(true)
        rows++
      }
    }
    expect(rows).toBe([...exactDump(demo).values()].flat().length)
    expect(manifest).toMatchObject({ madeAt: noon.toISOString(), migrations: listMigrations() })
  })

  test('an ordinary unzip and sha256sum agree with it', async () => {
    execFileSync('unzip', ['-q', demoBackup, '-d', folder])
    const sums = manifestOf(await unpack(demoBackup)).files.map(
      ({ path, sha256 }: { path: string; sha256: string }) => `${sha256}  ${path}`,
    )
    writeFileSync(join(folder, 'sums'), `${sums.join('\n')}\n`)
    execFileSync('sha256sum', ['--quiet', '--strict', '--check', 'sums'], { cwd: folder })
    expect(sums.length).toBeGreaterThan(60)
  })

  test('its CSV has the same rows, tells nothing from an empty text, and disarms formulas', async () => {
    const files = await unpack(demoBackup)
    const text = files.get('tables/Vessel.csv')?.toString('utf8') ?? ''
    const rows = parse(text, { columns: true }) as Record<string, string>[]
    const named = (name: string) => rows.find((row) => row['id'] === name)
    expect(rows.length).toBe(exactDump(demo).get('Vessel')?.length)
    expect(oddTexts.map((_, place) => named(`odd-${place}`)?.['name'])).toEqual(
      oddTexts.map((odd) => (odd === '=1+1' ? `'${odd}` : odd)),
    )
    expect(named('number-3')?.['brimUl']).toBe('9007199254740993')
    expect(named('bytes')?.['brimUl']).toBe('AP8K') // RFC 4648
    const lineOf = (name: string) => text.split('\r\n').find((line) => line.startsWith(`${name},`))
    expect(lineOf('number-0')).toMatch(/,""$|,"",/)
    expect(lineOf('text')).toMatch(/,$|,,/)
  })

  test('only its owner can read it', () => {
    expect(statSync(demoBackup).mode & 0o777).toBe(0o600)
  })
})

test('a backup is of one moment: what is written while it is read is not in it, and does not wait for it', () => {
  copyFileSync(demo, target)
  const writer = new Database(target)
  writer.pragma('journal_mode = WAL')
  const house = readWholeFile(target)
  const vessels = house.tables.find(({ name }) => name === 'Vessel')
  const trials = house.tables.find(({ name }) => name === 'Trial')
  if (!vessels || !trials) throw new Error('no such table')
  const first = house.rows(vessels)[Symbol.iterator]()
  first.next()
  const { changes } = writer.prepare(`DELETE FROM Vessel WHERE id LIKE 'odd-%'`).run()
  writer.prepare(`UPDATE Trial SET name = 'changed meanwhile'`).run()
  expect(changes).toBe(oddTexts.length)
  const seen = [...house.rows(vessels)]
  expect(seen.length).toBe(exactDump(demo).get('Vessel')?.length)
  expect([...house.rows(trials)].flat()).not.toContain('changed meanwhile')
  house.close()
  writer.close()
})

describe('a backup refuses', () => {
  const refusal = (made: Promise<unknown>) =>
    made.then(
      () => 'made',
      (error: { reason?: string }) => error.reason,
    )

  test('to overwrite anything', async () => {
    writeFileSync(join(folder, 'mine.zip'), 'mine')
    expect(await refusal(makeBackup(demo, join(folder, 'mine.zip'), noon))).toBe('file-is-there')
    expect(readFileSync(join(folder, 'mine.zip'), 'utf8')).toBe('mine')
  })

  test('a file that is no house, and makes none', async () => {
    const made = (database: string) => refusal(makeBackup(database, join(folder, 'a.zip'), noon))
    expect(await made(target)).toBe('no-database')
    writeFileSync(target, 'Notes, not a database, and long enough to look like one. '.repeat(40))
    expect(await made(target)).toBe('no-database')
    rmSync(target)
    new Database(target).exec('CREATE TABLE Notes (id TEXT)').close()
    expect(await made(target)).toBe('no-database')
    expect(readdirSync(folder)).toEqual(['kiosk.db'])
  })

  test('a place that cannot be written, and leaves nothing half there', async () => {
    writeFileSync(join(folder, 'note'), '')
    expect(await refusal(makeBackup(demo, join(folder, 'note', 'a.zip'), noon))).toBe('not-writable')
    expect(readdirSync(folder)).toEqual(['note'])
  })
})

describe('a restore refuses, in words, and changes nothing', () => {
  let spoilt: string
  beforeEach(() => {
    spoilt = join(folder, 'spoilt.zip')
  })

  async function refused(): Promise<string> {
    const before = readdirSync(folder)
    const words = await restored(spoilt).then(
      () => 'restored',
      (error: Error) => error.message,
    )
    expect(readdirSync(folder).filter((name) => name !== 'copies')).toEqual(before.filter((name) => name !== 'copies'))
    return words
  }

  const spoiling = async (spoil: (files: Files) => unknown) => {
    const files = await unpack(demoBackup)
    spoil(files)
    await pack(files, spoilt)
    return refused()
  }

  test('what is no archive', async () => {
    expect(await refused()).toContain('cannot be read: check the path')
    writeFileSync(spoilt, 'Notes')
    expect(await refused()).toContain('is no backup of this program')
    await pack([['notes.txt', Buffer.from('Notes')]], spoilt)
    expect(await refused()).toContain('is no backup of this program')
    expect(await spoiling((files) => putManifest(files, { format: 'another' }))).toContain('is no backup')
  })

  test('a newer form of archive, and a newer version of the schema', async () => {
    const changed = (change: object) => spoiling((files) => putManifest(files, { ...manifestOf(files), ...change }))
    expect(await changed({ formatVersion: 2, more: true })).toMatch(/newer version \(it knows form 2 of backups\)/)
    expect(await changed({ migrations: [...listMigrations(), '9999-tomorrow'] })).toMatch(/newer .*"9999-tomorrow"/)
    expect(await changed({ migrations: [listMigrations()[1]] })).toMatch(/damaged \(its version is none/)
  })

  test('one byte changed anywhere: what comes back is what was there, or nothing', async () => {
    const bytes = readFileSync(demoBackup)
    const before = exactDump(demo)
    let refusals = 0
    for (const part of [0.2, 0.4, 0.6, 0.8, 0.97, 0.9999]) {
      const place = Math.floor(bytes.length * part)
      const changed = Buffer.from(bytes)
      changed[place] = (changed[place] ?? 0) ^ 0x10
      writeFileSync(spoilt, changed)
      const words = await restored(spoilt).then(
        () => 'restored',
        (error: Error) => error.message,
      )
      if (words === 'restored') {
        expect(exactDump(target)).toEqual(before) // a time of day in the zip's own list tells nothing
        rmSync(target)
      } else {
        expect(words).toMatch(/is damaged \(|is no backup/)
        expect(existsSync(target)).toBe(false)
        refusals++
      }
    }
    expect(refusals).toBeGreaterThan(3)
  })

  test('an archive cut off', async () => {
    const bytes = readFileSync(demoBackup)
    for (const part of [0.1, 0.5, 0.99]) {
      writeFileSync(spoilt, bytes.subarray(0, Math.floor(bytes.length * part)))
      expect(await refused()).toMatch(/is damaged \(|is no backup/)
    }
  })

  const vessels = (files: Files) => files.get('tables/Vessel.jsonl')?.toString('utf8').split('\n') ?? []
  const putVessels = (files: Files, lines: readonly string[]) =>
    putFile(files, 'tables/Vessel.jsonl', Buffer.from(lines.join('\n')))

  test.each<[string, RegExp, (files: Files) => unknown]>([
    [
      'another sum',
      /Vessel.csv has another sum/,
      (files) => {
        const csv = Buffer.from(files.get('tables/Vessel.csv') ?? '')
        csv[csv.length - 3] = 65
        files.set('tables/Vessel.csv', csv)
      },
    ],
    ['another length', /Vessel.jsonl has another length/, (files) => files.set('tables/Vessel.jsonl', Buffer.from(''))],
    ['a missing file', /Vessel.csv is missing/, (files) => files.delete('tables/Vessel.csv')],
    ['a file too many', /stray.txt is in it and not in its list/, (files) => files.set('stray.txt', Buffer.from('a'))],
    ['a missing row', /Vessel has \d+ rows and should have \d+/, (files) => putVessels(files, vessels(files).slice(1))],
    ['half a row', /the last row of Vessel is cut off/, (files) => putVessels(files, vessels(files).slice(0, -1))],
    [
      'a row that is none',
      /row 1 of Vessel cannot be read/,
      (files) => putVessels(files, ['{}', ...vessels(files).slice(1)]),
    ],
    [
      'a row twice',
      /a row of Vessel cannot stand beside the others/,
      (files) => {
        const [first = '', , ...rest] = vessels(files)
        putVessels(files, [first, first, ...rest])
      },
    ],
    [
      'a row that points at nothing',
      /\d+ rows? points? at nothing/,
      (files) => {
        putVessels(
          files,
          vessels(files).map((line) => line.replace(/"cafeId":"[^"]*"/, '"cafeId":"nobody"')),
        )
      },
    ],
    [
      'text that is none',
      /Vessel is not text/,
      (files) => putFile(files, 'tables/Vessel.jsonl', Buffer.from([0xff, 10])),
    ],
    [
      'a table without its place',
      /the table Vessel is not one of the version/,
      (files) => {
        const manifest = manifestOf(files)
        manifest.tables.find((table: { name: string }) => table.name === 'Vessel').columns.pop()
        putManifest(files, manifest)
      },
    ],
    [
      'a table missing in whole',
      /the table Vessel is missing/,
      (files) => {
        const manifest = manifestOf(files)
        const isOther = ({ jsonl, path }: { jsonl?: string; path?: string }) => !`${jsonl}${path}`.includes('/Vessel.')
        putManifest(files, {
          ...manifest,
          tables: manifest.tables.filter(isOther),
          files: manifest.files.filter(isOther),
        })
        for (const end of ['jsonl', 'csv']) files.delete(`tables/Vessel.${end}`)
      },
    ],
    [
      'files that this version would lose',
      /holds files that this version does not keep \(files\/cup.jpg\)/,
      (files) => {
        const manifest = manifestOf(files)
        putManifest(files, { ...manifest, files: [...manifest.files, { path: 'files/cup.jpg', bytes: 0, sha256: '' }] })
        putFile(files, 'files/cup.jpg', Buffer.from('a picture'))
      },
    ],
    [
      'a row without end',
      /a row of Vessel has no end/,
      (files) => {
        putFile(files, 'tables/Vessel.jsonl', Buffer.alloc(70_000_000, 'a'))
      },
    ],
  ])('%s', async (_what, words, spoil) => {
    expect(await spoiling(spoil)).toMatch(words)
  })

  test('a path that climbs out, though its zip is sound', async () => {
    const files = await unpack(demoBackup)
    files.set('../outside', Buffer.from(''))
    const honest = [...files].map(([path, bytes]) => [path === '../outside' ? 'xx/outside' : path, bytes] as const)
    await pack(honest, spoilt)
    overwrite(spoilt, Buffer.from('xx/outside'), Buffer.from('../outside'))
    expect(await refused()).toMatch(/damaged \(its list of files cannot be read\)/)
    expect(existsSync(join(folder, '..', 'outside'))).toBe(false)
  })

  test('a file that unpacks to more than it says', async () => {
    const files = await unpack(demoBackup)
    const [long, short] = [Buffer.alloc(4), Buffer.alloc(4)]
    putFile(files, 'tables/Vessel.jsonl', Buffer.alloc(30_000_003, 'a'))
    const manifest = manifestOf(files)
    manifest.files.find(({ path }: { path: string }) => path === 'tables/Vessel.jsonl').bytes = 7
    putManifest(files, manifest)
    await pack(files, spoilt)
    long.writeUInt32LE(30_000_003)
    short.writeUInt32LE(7)
    overwrite(spoilt, long, short)
    expect(await refused()).toMatch(/damaged \(tables\/Vessel.jsonl cannot be read\)/)
  })

  test('what does not fit on the disk', async () => {
    const order = { archive: demoBackup, database: target, overwrite: false, now: noon }
    await expect(restoreBackup(order, [], () => 1000)).rejects.toThrow(/does not fit, \d+ MB unpacked and 1 MB free/)
    expect(readdirSync(folder)).toEqual([])
  })
})

describe('a database that is there', () => {
  test('stays, unless it is to be overwritten', async () => {
    copyFileSync('test/fixtures/landed-0001-start.db', target)
    const before = readFileSync(target)
    await expect(restored()).rejects.toMatchObject({ reason: 'database-is-there' })
    expect(readFileSync(target).equals(before)).toBe(true)
  })

  test('is kept as a copy when it is overwritten, what lies in its log too', async () => {
    copyFileSync('test/fixtures/landed-0001-start.db', target)
    const writer = new Database(target)
    writer.pragma('journal_mode = WAL')
    writer.prepare(`UPDATE Cafe SET name = 'Before the restore'`).run()
    copyFileSync(target, join(folder, 'dead.db'))
    copyFileSync(`${target}-wal`, join(folder, 'dead.db-wal')) // as a house that was killed leaves it
    writer.close()
    target = join(folder, 'dead.db')
    const { copy } = await restored(demoBackup, true)
    expect(copy).toBe(join(folder, 'copies', 'dead.db.before-restore.2026-11-27T12-00-00-000Z'))
    expect(statSync(copy ?? '').mode & 0o777).toBe(0o600)
    expect(
      exactDump(copy ?? '')
        .get('Cafe')
        ?.join(),
    ).toContain('Before the restore')
    expect(exactDump(target)).toEqual(exactDump(demo))
    expect(readdirSync(folder).filter((name) => name.startsWith('dead'))).toEqual(['dead.db'])
  })

  test('that is no database any more is kept as it lies there, with what lies beside it', async () => {
    const bytes = readFileSync('test/fixtures/landed-0001-start.db').fill(7, 0, 4000)
    writeFileSync(target, bytes)
    writeFileSync(`${target}-wal`, 'rest of a log')
    const { copy } = await restored(demoBackup, true)
    expect(readFileSync(copy ?? '').equals(bytes)).toBe(true)
    expect(readFileSync(`${copy}-wal`, 'utf8')).toBe('rest of a log')
    expect(exactDump(target)).toEqual(exactDump(demo))
  })

  test('that is damaged in its middle is kept as it lies there, and stays unless it is to be overwritten', async () => {
    const bytes = readFileSync('test/fixtures/landed-0001-start.db').fill(7, 20_000, 600_000)
    writeFileSync(target, bytes)
    await expect(restored()).rejects.toMatchObject({ reason: 'database-is-there' })
    const { copy } = await restored(demoBackup, true)
    expect(readFileSync(copy ?? '').equals(bytes)).toBe(true)
    expect(exactDump(target)).toEqual(exactDump(demo))
  })

  test('that another program has open is not touched', async () => {
    copyFileSync('test/fixtures/landed-0001-start.db', target)
    const other = new Database(target)
    other.pragma('journal_mode = WAL')
    other.prepare('SELECT * FROM Cafe').get()
    await expect(restored(demoBackup, true)).rejects.toMatchObject({ reason: 'in-use' })
    other.close()
    expect(exactDump(target)).toEqual(exactDump('test/fixtures/landed-0001-start.db'))
  })

  test('that holds nothing is no hindrance', async () => {
    writeFileSync(target, '')
    expect(await restored()).toMatchObject({ copy: null })
    expect(exactDump(target)).toEqual(exactDump(demo))
  })
})

describe('rotation', () => {
  test('keeps the newest, and what is not of its making', async () => {
    const keep = { folder: join(folder, 'kept'), kept: 2 }
    for (const hours of [0, 24, 48]) {
      await rotateBackups(demo, keep, at(hours))
      if (hours === 0) writeFileSync(join(keep.folder, 'notes.txt'), '')
      if (hours === 0) writeFileSync(join(keep.folder, `${backupName(at(1))}.4711.part`), 'half')
    }
    expect(readdirSync(keep.folder).sort()).toEqual(['notes.txt', backupName(at(24)), backupName(at(48))])
    expect(statSync(keep.folder).mode & 0o777).toBe(0o700)
  })

  test('removes nothing when no new one could be made', async () => {
    const keep = { folder: join(folder, 'kept'), kept: 1 }
    await rotateBackups(demo, keep, at(0))
    await expect(rotateBackups(target, keep, at(24))).rejects.toMatchObject({ reason: 'no-database' })
    expect(readdirSync(keep.folder)).toEqual([backupName(at(0))])
  })

  test('never removes the one just made, whatever the clock says', async () => {
    const keep = { folder: join(folder, 'kept'), kept: 1 }
    await rotateBackups(demo, keep, at(0))
    const { removed } = await rotateBackups(demo, keep, new Date('1970-01-01T00:00:07Z'))
    expect(removed).toEqual([backupName(at(0))])
    expect(readdirSync(keep.folder)).toEqual(['sipwright-1970-01-01T00-00-07Z.zip'])
  })
})
