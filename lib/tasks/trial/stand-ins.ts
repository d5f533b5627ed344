import 'server-only'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findWaterId } from '@/lib/db/ingredients'
import type { TrialRow } from '@/lib/db/trials'
import { allergensOf, graverThan, type AllergenRow } from '@/lib/drink/allergen'
import { together } from '@/lib/drink/contents'
import { insteadOf, makeupOf, weighedIn, type Compared, type Makeup, type StandIn } from '@/lib/drink/instead-of'
import { preparationsWithin } from '@/lib/drink/nesting'
import { lineOf, type Part } from '@/lib/drink/part'
import { contentsOfLine } from '@/lib/drink/preparation'
import type { BuildLine, LineKind } from '@/lib/drink/trial'
import { partsNamedIn, readLineOffer } from '../store/reach-store'
import type { StorePart } from '../store/store-part'
import type { Reader } from '../world'
import { trialBuild } from './trial-build'
import { milligrams } from './trial-content'

/** What goes on the scale instead. */
export interface InsteadPart {
  readonly part: StorePart
  readonly mg: number
}

/** One thing, or a blend, that may stand in for a line. */
export interface Proposal {
  /** what it is made of, to be asked for again: it names no other blend and no other amounts */
  readonly key: string
  readonly parts: readonly InsteadPart[]
  /** g per 100 g, this less what it stands for */
  readonly differences: Makeup
  /** figures that could not be compared, and the names of what does not know them */
  readonly notCompared: readonly { readonly figure: Compared; readonly of: readonly string[] }[]
  /** of the line, in the café's currency: above 0 is dearer; null where a price is missing */
  readonly costDifference: number | null
  /** what it may carry that the line did not */
  readonly graver: readonly AllergenRow[]
  /** names of what nobody has read the label of */
  readonly unread: readonly string[]
}

/** Nearest first, beside the line they stand for. */
export interface Proposals {
  readonly line: BuildLine
  /** why nothing is compared, if nothing is: its kind, or nothing known of it */
  readonly compared: 'yes' | 'not-this-kind' | 'nothing-known'
  readonly proposals: readonly Proposal[]
  readonly blendedUpTo: number
  /** of the same kind, but with nothing known that could be compared */
  readonly unlike: readonly string[]
}

/** What coffee and ice are, these figures do not say; water is water. */
const TOLD_BY_FIGURES: readonly LineKind[] = ['milk', 'sweetener', 'other']

/** Can anything be said of what stands in for such a line? */
export const isToldByFigures = ({ kind }: Pick<BuildLine, 'kind'>): boolean => TOLD_BY_FIGURES.includes(kind)

/** What of today's store can stand in for one line of a trial. @returns null where there is no such line */
export async function standInsFor(
  db: Db | Tx,
  reader: Reader,
  now: Date,
  trial: TrialRow,
  lineKey: string,
): Promise<Proposals | null> {
  const { store, parts } = await readLineOffer(db, reader.cafeId, now, partsNamedIn([trial]))
  const build = trialBuild(trial, store, reader.cafe)
  const line = build.lines.find(({ key }) => key === lineKey)
  if (!line) return null
  const nothing = { line, proposals: [], blendedUpTo: 3, unlike: [] }
  if (!isToldByFigures(line)) return { ...nothing, compared: 'not-this-kind' }
  const waterId = await findWaterId(db, reader.cafeId)
  const water = (waterId && store.get(`ingredient:${waterId}`)) || null
  const offered = new Map(mayStandIn(parts, line, now).map((part) => [part.ref, part]))
  const target = makeupOf(contentsOfLine(line, null))
  const candidates = [...offered].map(([id, part]) => ({ id, makeup: makeupOf(contentsOfLine(hundred(part), null)) }))
  const found = insteadOf(target, candidates, { water: water !== null })
  const proposals = found.standIns.flatMap((one): Proposal[] => {
    const weighed = weighedIn(one, line.targetGrams)?.flatMap(({ id, grams }) => {
      const part = id === null ? water : offered.get(id)
      return part ? [{ part, mg: milligrams(grams) }] : []
    })
    return weighed ? [proposalOf(one, line, weighed, offered, build.allergenList)] : []
  })
  return {
    line,
    compared: Object.values(target).every((value) => value === null) ? 'nothing-known' : 'yes',
    proposals,
    blendedUpTo: found.blendedUpTo,
    unlike: found.unlike.flatMap((id) => offered.get(id)?.name ?? []),
  }
}

const amountOf = ({ ref, kind }: Part, grams = 100) => ({ key: ref, role: kind, targetGrams: grams })
const hundred = (part: StorePart, grams = 100) => lineOf(part, amountOf(part, grams))

/**
 * Of the same kind and on the shelf, without what is replaced in it; of each preparation whichever batch of it goes first, if one is in date.
 * Another batch of what is replaced is no other thing.
 */
function mayStandIn(parts: readonly StorePart[], line: BuildLine, now: Date): readonly StorePart[] {
  const gone = new Set([line.name, ...preparationsOfLine(line)])
  const newest = new Map<string, number>()
  const batchOf = ({ preparation }: StorePart) => Number(preparation?.batch ?? 0)
  const fit = parts.filter((part) => {
    const isThere = !part.archived && (part.discardAt === null || part.discardAt > now)
    const within = [
      part.name,
      ...preparationsIn(part),
      ...contentsOfLine(hundred(part), null).parts.map(({ name }) => name),
    ]
    return (
      isThere &&
      part.pour?.batch !== null &&
      part.kind === line.kind &&
      part.form !== 'grounds' &&
      !within.some((name) => gone.has(name))
    )
  })
  // by its preparation, where that is in date: then any batch of it may be poured, and no single one is offered beside
  const named = new Set(fit.flatMap(({ pour }) => pour?.name ?? []))
  for (const part of fit)
    if (part.preparation)
      newest.set(part.preparation.name, Math.max(newest.get(part.preparation.name) ?? 0, batchOf(part)))
  return fit.filter(
    (part) =>
      !part.preparation ||
      part.pour !== undefined ||
      (!named.has(part.preparation.name) && newest.get(part.preparation.name) === batchOf(part)),
  )
}

const preparationsOfLine = ({ preparation }: BuildLine) => (preparation ? [preparation.name] : [])
const preparationsIn = (part: StorePart) => preparationsWithin([hundred(part)]).map(({ name }) => name)

function proposalOf(
  one: StandIn,
  line: BuildLine,
  parts: readonly InsteadPart[],
  offered: ReadonlyMap<string, StorePart>,
  list: Parameters<typeof allergensOf>[1],
): Proposal {
  const now = contentsOfLine({ ...line, weighedGrams: null }, null)
  const then = together(parts.map(({ part, mg }) => contentsOfLine(hundred(part, mg / 1000), null)))
  // of a preparation any other batch in date may be poured as well
  const another = parts
    .flatMap(({ part }) => part.beside ?? [])
    .map((part) => contentsOfLine(lineOf(part, amountOf(part)), null))
  const labels = allergensOf([...then.parts, ...another.flatMap((one) => one.parts)], list)
  const isPriced = now.cost.missing.length === 0 && then.cost.missing.length === 0
  return {
    key: parts.map(({ part, mg }) => `${part.ref}=${mg}`).join(' '),
    parts,
    differences: one.differences,
    notCompared: one.notCompared.map(({ figure, target, parts: ids }) => ({
      figure,
      of: [...(target ? [line.name] : []), ...ids.flatMap((id) => offered.get(id)?.name ?? [])],
    })),
    costDifference: isPriced ? then.cost.total - now.cost.total : null,
    graver: graverThan(allergensOf(now.parts, list), labels),
    unread: labels.unread,
  }
}
