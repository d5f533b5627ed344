import 'server-only'
import { findAudit } from '@/lib/db/audit'
import { findPanelsOf, type OfPanel } from '@/lib/db/subjects'
import { diaryLines, type DiaryEntry, type DiaryRow } from './diary-lines'
import { countActs, foldSteps } from './fold-steps'
import type { Actor, World } from '../world'

/** What tasters did at one panel, one step after the other with no act of the house between. */
export interface DiaryFold {
  /** id of its newest line */
  readonly id: string
  readonly panel: OfPanel | null
  readonly steps: number
  readonly acts: readonly { readonly act: string; readonly count: number }[]
  readonly from: Date
  readonly to: Date
  /** the newest of its lines */
  readonly lines: readonly DiaryEntry[]
  /** the line above all of them, where they are read on line by line; null at the top of the diary */
  readonly below: string | null
}

export type DiaryPiece =
  { readonly kind: 'line'; readonly line: DiaryEntry } | { readonly kind: 'fold'; readonly fold: DiaryFold }

const PIECES = 100
/** A fold is at most so many lines; what a longer one goes on with is a fold of the next page. */
const ROWS = 1000
const SHOWN = 10

/**
 * One page of the diary, newest first, with tasters' steps folded. A page reads a bounded number of lines, however long the
 * diary is.
 *
 * @param below  `last` of the page before; null for the first page
 */
export async function readDiaryFolds(
  world: World,
  actor: Actor,
  below: string | null,
): Promise<{ readonly pieces: readonly DiaryPiece[]; readonly last: string | null; readonly more: boolean }> {
  const found = await findAudit(world.db, actor.cafeId, below, ROWS + 1)
  const { pieces, left } = foldSteps(found.slice(0, ROWS), PIECES)
  const rows = pieces.flat()
  const panels = await findPanelsOf(world.db, actor.cafeId, rows.filter(isStep).map(subjectOf))
  const cut = pieces.flatMap((piece, at) => {
    const above = pieces[at - 1]?.at(-1)?.id ?? below
    return byPanel(piece, panels).map((own) => ({ own, above }))
  })
  const shown = cut.flatMap(({ own }) => own.slice(0, own.length > 1 ? SHOWN : 1))
  const lines = new Map((await diaryLines(world, actor, shown)).map((line) => [line.id, line]))
  const linesOf = (own: readonly DiaryRow[]) => own.flatMap(({ id }) => lines.get(id) ?? [])
  return {
    pieces: cut.flatMap(({ own, above }): DiaryPiece[] => {
      const [line, second] = linesOf(own)
      if (!line) return []
      if (!second) return [{ kind: 'line', line }]
      return [{ kind: 'fold', fold: foldOf(own, linesOf(own), above, panels.get(line.subjectId) ?? null) }]
    }),
    last: rows.at(-1)?.id ?? null,
    more: left || found.length > ROWS,
  }
}

const isStep = ({ actorKind }: DiaryRow) => actorKind === 'taster'
const subjectOf = ({ subjectKind, subjectId }: DiaryRow) => ({ kind: subjectKind, id: subjectId })

/** Two panels may run at once: each has its own fold. */
function byPanel(piece: readonly DiaryRow[], panels: ReadonlyMap<string, OfPanel>): readonly (readonly DiaryRow[])[] {
  const own = new Map<string, DiaryRow[]>()
  for (const row of piece) {
    const panel = panels.get(row.subjectId)?.id ?? ''
    const rows = own.get(panel)
    if (rows) rows.push(row)
    else own.set(panel, [row])
  }
  return [...own.values()]
}

function foldOf(
  own: readonly DiaryRow[],
  lines: readonly DiaryEntry[],
  below: string | null,
  panel: OfPanel | null,
): DiaryFold {
  const [newest, oldest] = [own[0]?.at ?? new Date(0), own.at(-1)?.at ?? new Date(0)]
  const id = own[0]?.id ?? ''
  return { id, panel, steps: own.length, acts: countActs(own), from: oldest, to: newest, lines, below }
}
