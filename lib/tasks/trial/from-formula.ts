import 'server-only'
import type { Db } from '@/lib/db/engine/client'
import type { FormulaRow } from '@/lib/db/formulas'
import { isNotInDate } from '@/lib/drink/preparation'
import type { BuildLine, Preparation, TrialBuild } from '@/lib/drink/trial'
import { findWorkedFormula } from '../store/read-formula'
import type { TodaysBatch } from './todays-batches'

/** A preparation of which no batch is in date: by what it is made first. */
export interface MadeFirst {
  readonly name: string
  /** the version that counts, the batch that the sheet was poured from where there is none, or why nobody can say */
  readonly by: 'formula' | 'batch of its day' | 'no formula' | 'no yield'
  /** of the formula; null where there is none */
  readonly version: number | null
  /** brewed: it has no °Bx to measure */
  readonly isBrewed: boolean
  /** °Bx it is cooked to, as its formula says */
  readonly brix: number | null
}

/** A build with what is made first by its formula in it, and what that is, each once, the innermost first. */
export interface FromFormulas {
  readonly build: TrialBuild
  readonly first: readonly MadeFirst[]
}

/**
 * Where no batch of a preparation is in date, the line starts from its formula: how much of it is made, of what, down to what
 * is bought. Nothing of it is measured yet, so its figures are the formula's.
 *
 * @param build   as it is poured today
 * @param todays  of the lines that name a preparation
 */
export async function fromFormulas(
  db: Db,
  cafeId: string,
  now: Date,
  build: TrialBuild,
  todays: readonly TodaysBatch[],
): Promise<FromFormulas> {
  const lacking = new Map(todays.flatMap((one) => (one.batch === null ? [[one.key, one]] : [])))
  if (lacking.size === 0) return { build, first: [] }
  const made = new Formulas(db, cafeId, now)
  const lines: BuildLine[] = []
  for (const line of build.lines) {
    const today = lacking.get(line.key)
    if (today === undefined || line.preparation === null) lines.push(line)
    else lines.push(await made.startLine(line, line.preparation, today))
  }
  return { build: { ...build, lines }, first: [...made.first.values()] }
}

/** Each formula read once, however many lines and formulas name it. */
class Formulas {
  readonly first = new Map<string, MadeFirst>()
  readonly #read = new Map<string, Preparation | null>()

  constructor(
    readonly db: Db,
    readonly cafeId: string,
    readonly now: Date,
  ) {}

  async startLine(line: BuildLine, poured: Preparation, { preparationId, name }: TodaysBatch): Promise<BuildLine> {
    const made = await this.#made(preparationId, name, isNotInDate(poured) ? null : poured)
    // the density of a batch that is gone says nothing of the one to be made
    return made ? { ...line, name, preparation: made, density: null } : line
  }

  /** @returns null where no formula says how much of it one gets */
  async #made(id: string, name: string, ofItsDay: Preparation | null): Promise<Preparation | null> {
    const known = this.#read.get(id)
    if (known !== undefined) return known
    // A circle is refused when a formula is saved; a book that holds one all the same ends here.
    this.#read.set(id, null)
    const worked = await findWorkedFormula(this.db, this.cafeId, this.now, id)
    const { row, gives, preparation } = worked ?? { row: null, gives: null, preparation: null }
    const made = preparation && gives && row ? await this.#whole(row, preparation, gives.grams) : null
    this.#read.set(id, made)
    const by = made ? 'formula' : ofItsDay ? 'batch of its day' : row ? 'no yield' : 'no formula'
    const brix = row === null || row.brixHundredths === null ? null : row.brixHundredths / 100
    const isBrewed = (preparation ?? ofItsDay)?.kind === 'brew'
    this.first.set(id, { name, by, isBrewed, version: row?.version ?? null, brix })
    return made
  }

  /** With what its inputs are made of, where none of those is in date either. */
  async #whole(row: FormulaRow, preparation: Preparation, outputGrams: number): Promise<Preparation> {
    const inputs: BuildLine[] = []
    for (const line of preparation.inputs) {
      const inner = row.inputs.find(({ position }) => String(position) === line.key)
      const lacks = line.preparation !== null && isNotInDate(line.preparation)
      const name = inner?.preparation?.name ?? line.name
      const made = lacks && inner?.preparationId ? await this.#made(inner.preparationId, name, null) : null
      inputs.push(made ? { ...line, name, preparation: made } : line)
    }
    // what it is cooked to gives its density: for how much fills a jug, and for nothing that anybody is told of a drink
    const brixMeasured = row.brixHundredths === null ? null : row.brixHundredths / 100
    return { ...preparation, inputs, outputGrams, brixMeasured }
  }
}
