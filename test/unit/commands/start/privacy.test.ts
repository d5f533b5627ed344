import { chmodSync, mkdirSync, mkdtempSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { keepToOwner, mayPrintSetUpLink } from '@/lib/commands/start/privacy.mjs'
import { houseAt } from '@/lib/commands/start/ready.mjs'

let root: string
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'sipwright-privacy-'))
})
afterEach(() => rmSync(root, { recursive: true, force: true }))

const modeOf = (path: string) => statSync(path).mode & 0o777

test('folders that are new are their owner’s alone', () => {
  const house = houseAt(root)
  keepToOwner(house)
  expect([house.data, house.logs].map(modeOf)).toEqual([0o700, 0o700])
})

test('what could be read by others before cannot afterwards, and what a link points at elsewhere stays as it is', () => {
  const house = houseAt(root)
  mkdirSync(house.logs, { recursive: true })
  for (const folder of [house.data, house.logs]) chmodSync(folder, 0o755)
  const [log, start, elsewhere] = [join(house.logs, 'server.log'), join(house.logs, 'start.log'), join(root, 'other')]
  for (const file of [log, start, elsewhere]) {
    writeFileSync(file, 'words')
    chmodSync(file, 0o664)
  }
  symlinkSync(elsewhere, join(house.logs, 'link.log'))
  keepToOwner(house)
  expect([house.data, house.logs, log, start, elsewhere].map(modeOf)).toEqual([0o700, 0o700, 0o600, 0o600, 0o664])
})

test.each([
  [true, {}, true],
  [false, {}, false],
  [undefined, {}, false],
  [false, { SETUP_LINK: 'print' }, true],
  [false, { SETUP_LINK: 'keep' }, false],
])('a terminal (%s) or %j: may the set-up link be printed? %s', (isTTY, variables, may) => {
  expect(mayPrintSetUpLink(isTTY === undefined ? {} : { isTTY }, variables)).toBe(may)
})
