import { copyFileSync, mkdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { checkBooks } from '@/lib/db/books/check-books'
import { openDatabase } from '@/lib/db/engine/client'
import { sayComplaints } from '../books/say-complaints'
import { statOf } from '../start/process.mjs'
import { systemCode } from '../start/say.mjs'
import { freePort, startHouse, type ServedHouse } from '../bench/house'
import { readBooks, type OpenRoom } from '../bench/open-room'
import { Visitor } from '../bench/visitor'
import { compareBooks, type Compared } from './compare-books'
import { SteadyPhones } from './steady-phones'

/** A house with an open panel, to be copied; nobody has it open. */
export interface Template {
  readonly file: string
  readonly room: OpenRoom
  readonly signIn: { readonly email: string; readonly password: string }
}

export interface Checked extends Compared {
  /** what the database says of itself, and what its books say that must hold and does not; empty when it is sound */
  readonly complaints: readonly string[]
}

/** A house of its own for one trial of its strength: folder, database, port, phones. */
export class TriedHouse {
  readonly #template: Template
  readonly #env: Readonly<Record<string, string>>
  readonly folder: string
  readonly databaseUrl: string
  #served: ServedHouse | null = null
  #phones: SteadyPhones | null = null

  private constructor(template: Template, folder: string, env: Readonly<Record<string, string>>) {
    this.#template = template
    this.#env = env
    this.folder = folder
    this.databaseUrl = `file:${join(folder, 'house.db')}`
  }

  /** Copies the house into a folder, starts it and lets the phones sit down and begin. */
  static async open(
    template: Template,
    folder: string,
    phones: number,
    env: Readonly<Record<string, string>> = {},
  ): Promise<TriedHouse> {
    mkdirSync(folder, { recursive: true })
    copyFileSync(template.file, join(folder, 'house.db'))
    const port = Number(process.env['PORT']) || (await freePort())
    const house = new TriedHouse(template, folder, { ...env, PORT: String(port) })
    try {
      await house.start()
      house.#phones = await SteadyPhones.sitDown(house.served.address, template.room.cardPaths, phones)
      await house.#phones.allAcknowledged()
      return house
    } catch (error) {
      await house.throwAway()
      throw error
    }
  }

  get served(): ServedHouse {
    if (!this.#served) throw new Error('the house is not served')
    return this.#served
  }

  get phones(): SteadyPhones {
    if (!this.#phones) throw new Error('nobody has sat down')
    return this.#phones
  }

  get panelId(): string {
    return this.#template.room.panelId
  }

  async start(): Promise<void> {
    this.#served = await startHouse(this.databaseUrl, this.#env)
  }

  /** our start, and the server below it */
  pids(): { readonly start: number; readonly server: number } {
    const note = JSON.parse(readFileSync(join(this.folder, 'house.db.lock'), 'utf8')) as { readonly pids: number[] }
    const [server, start] = note.pids
    if (server === undefined || start === undefined) throw new Error('the house has not noted its server')
    return { start, server }
  }

  /** Sends a signal to some of the house's processes, and waits until all of them are gone. */
  async signal(name: NodeJS.Signals, whom: readonly ('start' | 'server')[]): Promise<void> {
    const pids = this.pids()
    for (const one of whom) kill(pids[one], name)
    while (isThere(pids.start) || isThere(pids.server)) await pause(20)
  }

  async signIn(): Promise<Visitor> {
    const visitor = new Visitor(this.served.address)
    await visitor.signIn(this.#template.signIn.email, this.#template.signIn.password)
    return visitor
  }

  /** What is in the books, by a connection that is opened for it; nothing may be on its way. */
  async check(): Promise<Checked> {
    const db = openDatabase(this.databaseUrl)
    try {
      const { kept } = await readBooks(this.panelId, db)
      const sound = await db.$queryRawUnsafe<Record<string, string>[]>('PRAGMA integrity_check')
      const links = await db.$queryRawUnsafe<object[]>('PRAGMA foreign_key_check')
      const words = sound.flatMap((row) => Object.values(row)).filter((word) => word !== 'ok')
      const nowhere = links.map((row) => `points at nothing: ${Object.values(row).join(' ')}`)
      const complaints = [...words, ...nowhere, ...sayComplaints(await checkBooks(db))]
      return { ...compareBooks(this.phones.told, kept), complaints }
    } finally {
      await db.$disconnect()
    }
  }

  async countScores(): Promise<number> {
    const db = openDatabase(this.databaseUrl)
    try {
      return (await readBooks(this.panelId, db)).kept.length
    } finally {
      await db.$disconnect()
    }
  }

  async throwAway(): Promise<void> {
    await this.#served?.stop()
    rmSync(this.folder, { recursive: true, force: true })
  }
}

function kill(pid: number, name: NodeJS.Signals): void {
  try {
    process.kill(pid, name)
  } catch (error) {
    if (systemCode(error) !== 'ESRCH') throw error // its end was that of the other
  }
}

function isThere(pid: number): boolean {
  try {
    process.kill(pid, 0)
  } catch {
    return false
  }
  return statOf(pid)?.[0] !== 'Z'
}
