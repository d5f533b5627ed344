import { expect, test } from 'vitest'
import { backupName, isBackupDue, timeOfBackup } from '@/lib/base/backup-name.mjs'

const noon = new Date('2026-11-27T12:00:00.000Z')

test('a backup is named for its second, and names stand in the order of their times', () => {
  expect(backupName(noon)).toBe('sipwright-2026-11-27T12-00-00Z.zip')
  expect(timeOfBackup(backupName(noon))).toEqual(noon)
  expect(backupName(new Date('2026-11-27T12:00:01Z')) > backupName(noon)).toBe(true)
})

test.each([
  'kiosk.zip',
  'sipwright-2026-11-27T12-00-00Z.zip.12.part',
  'sipwright-2026-13-41T12-00-00Z.zip',
  'sipwright-.zip',
])('%s is none of them', (name) => {
  expect(timeOfBackup(name)).toBeNull()
})

test('one is due when the newest is a day old, whatever else lies there', () => {
  const at = (time: string) => [backupName(new Date(time)), 'notes.txt']
  expect(isBackupDue([], noon)).toBe(true)
  expect(isBackupDue(['notes.txt'], noon)).toBe(true)
  expect(isBackupDue(at('2026-11-26T12:00:01Z'), noon)).toBe(false)
  expect(isBackupDue(at('2026-11-26T12:00:00Z'), noon)).toBe(true)
  expect(isBackupDue(at('2031-01-01T00:00:00Z'), noon)).toBe(true) // a clock was wrong once
})
