import { spawnSync } from 'node:child_process'
import { mkdirSync, rmSync, writeSync, openSync, closeSync } from 'node:fs'
import { join } from 'node:path'
import { systemCode } from '../start/say.mjs'

export interface SmallDisk {
  readonly folder: string
  /** Leaves no room at all. */
  fill(): void
  makeRoom(): void
  takeAway(): void
}

/** A disk in memory, of some bytes; null where this process may not make one. */
export function makeSmallDisk(folder: string, bytes: number): SmallDisk | null {
  mkdirSync(folder, { recursive: true })
  const words = ['-t', 'tmpfs', '-o', `size=${bytes}`, 'sipwright-torture', folder]
  if (spawnSync('mount', words).status !== 0) return null
  const filler = join(folder, 'fill')
  const makeRoom = () => rmSync(filler, { force: true })
  return {
    folder,
    makeRoom,
    fill: () => fillUp(filler),
    takeAway: () => {
      makeRoom()
      spawnSync('umount', [folder])
    },
  }
}

function fillUp(file: string): void {
  const handle = openSync(file, 'a')
  try {
    for (const step of [65_536, 4096]) writeUntilFull(handle, Buffer.alloc(step))
  } finally {
    closeSync(handle)
  }
}

function writeUntilFull(handle: number, bytes: Uint8Array): void {
  try {
    for (;;) writeSync(handle, bytes)
  } catch (error) {
    if (systemCode(error) !== 'ENOSPC') throw error
  }
}
