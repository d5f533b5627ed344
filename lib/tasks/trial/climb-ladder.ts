import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { printNumber } from '@/lib/base/typed-number'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { findWaterId } from '@/lib/db/ingredients'
import { findTrial, type TrialContent, type TrialRow } from '@/lib/db/trials'
import type { BuildLine, TrialBuild } from '@/lib/drink/trial'
import { doseLadder, ingredientLadder, methodLadder, ratioLadder, swapSweetener } from '@/lib/drink/ladder'
import { findMethod } from '@/lib/drink/method'
import { lineOf } from '@/lib/drink/part'
import { PERCENT } from '@/lib/drink/unit'
import type { LadderSent } from '@/lib/forms/ladder-form'
import { AMOUNT } from '@/lib/forms/number-fields'
import { copyTrial } from './branch-trial'
import { namedBy, type Store } from '../store/store-part'
import { partsNamedIn, readStore } from '../store/reach-store'
import { trialBuild } from './trial-build'
import { milligrams } from './trial-content'
import type { Actor, World, Reader } from '../world'

export type LadderRefusal =
  'gone' | 'line-gone' | 'part-gone' | 'cannot-swap' | 'no-ratio' | 'ratio-too-low' | 'no-water'

/** One rung: the varied build, and what the ids of its lines and method are. */
interface Rung {
  readonly build: TrialBuild
  readonly method?: string
  /** ref of a line's new part, by line key */
  readonly parts?: ReadonlyMap<string, string>
}

/** Makes a ladder of drafts from one trial: one thing varies, all else is held. @returns the ids, in the order asked */
export async function climbLadder(
  world: World,
  reader: Reader,
  trialId: string,
  sent: LadderSent,
): Promise<Result<readonly string[], LadderRefusal>> {
  return inTransaction(world, async (tx) => {
    const trial = await findTrial(tx, reader.cafeId, trialId)
    if (!trial) return no('gone')
    const water = await findWaterId(tx, reader.cafeId)
    const asked = sent.vary === 'part' || sent.vary === 'swap' ? sent.parts : []
    const refs = [...partsNamedIn([trial]), ...asked, water && `ingredient:${water}`]
    const store = await readStore(tx, reader.cafeId, world.now(), refs)
    const rungs = rungsOf({ ...trialBuild(trial, store, reader.cafe), name: `trial ${trial.number}` }, store, sent)
    if (!rungs.ok) return rungs
    return ok(await makeRungs(world, tx, reader, trial, store, rungs.value))
  })
}

async function makeRungs(
  world: World,
  tx: Tx,
  actor: Actor,
  trial: TrialRow,
  store: Store,
  rungs: readonly Rung[],
): Promise<string[]> {
  const ids: string[] = []
  for (const rung of rungs) {
    const vary = (content: TrialContent) => varied(world, content, trial, rung, store)
    ids.push(await copyTrial(world, tx, actor, trial, { name: rung.build.name.slice(0, 80), vary }))
  }
  return ids
}

function rungsOf(build: TrialBuild, store: Store, sent: LadderSent): Result<readonly Rung[], LadderRefusal> {
  if (sent.vary === 'ratio') {
    if (!build.brew?.ratioKind) return no('no-ratio')
    if (build.brew.ratioKind === 'water-in' && sent.levels.some((level) => level <= (build.brew?.retention ?? 2)))
      return no('ratio-too-low')
    return ok(ratioLadder(build, sent.levels, sent.hold).map((rung) => ({ build: rung })))
  }
  if (sent.vary === 'method') {
    if (!build.brew) return no('no-ratio')
    const ways = sent.methods.flatMap((id) => {
      const method = findMethod(id)
      return method?.brewing ? [{ id, method: method.words, brewing: method.brewing, retention: null }] : []
    })
    return ok(methodLadder(build, ways).map((rung, place) => ({ build: rung, method: ways[place]?.id })))
  }
  const line = build.lines.find((one) => one.key === sent.line)
  if (!line) return no('line-gone')
  if (sent.vary === 'dose') return ok(doseLadder(build, line.key, sent.levels).map((rung) => ({ build: rung })))
  const parts = sent.parts.map((ref) => store.get(ref))
  if (parts.some((part) => !part)) return no('part-gone')
  const others = parts.flatMap((part) =>
    part ? [{ ref: part.ref, line: lineOf(part, { key: line.key, role: line.role, targetGrams: 1 }) }] : [],
  )
  return sent.vary === 'part' ? ok(partRungs(build, line, others)) : swapRungs(build, line, others)
}

type Other = { readonly ref: string; readonly line: BuildLine }

const partRungs = (build: TrialBuild, line: BuildLine, others: readonly Other[]): Rung[] =>
  others.flatMap(({ ref, line: other }) =>
    ingredientLadder(build, line.key, [other]).map((rung) => ({ build: rung, parts: new Map([[line.key, ref]]) })),
  )

function swapRungs(
  build: TrialBuild,
  line: BuildLine,
  others: readonly Other[],
): Result<readonly Rung[], LadderRefusal> {
  const water = build.lines.find((one) => one.kind === 'water')?.key ?? null
  const rungs: Rung[] = []
  for (const { ref, line: other } of others) {
    const swapped = swapSweetener(build, line.key, other, water)
    if (!swapped.ok) return no('cannot-swap', { missing: swapped.missing.join(', ') })
    rungs.push({ build: swapped.build, parts: new Map([[line.key, ref]]) })
  }
  return ok(rungs)
}

/** The parent's content with what this rung changes; an amount that did not change stays as it was typed. */
function varied(world: World, content: TrialContent, parent: TrialRow, rung: Rung, store: Store): TrialContent {
  const before = new Map(parent.lines.map((line, place) => [String(line.position), content.lines[place]]))
  const water = [...store.values()].find((part) => part.kind === 'water' && part.form === 'liquid' && !part.archived)
  const lines = rung.build.lines.flatMap((line) => {
    const kept = before.get(line.key)
    const targetMg = milligrams(line.targetGrams)
    const ref = rung.parts?.get(line.key) ?? (kept ? null : water?.ref)
    if (!kept && !ref) return []
    const id = world.id()
    // A volume and its density were typed for the ingredient that was there, and so was what a level uses instead of it.
    const grams = { targetMg, typed: printNumber(targetMg / 1000, AMOUNT), unit: 'g', microdensity: null }
    // grams are held: a share of another glass would be other grams
    const holds = kept?.targetMg === targetMg && kept.unit !== PERCENT
    if (!ref) return kept ? [{ ...kept, ...(holds ? {} : grams), id }] : []
    const part = { role: line.kind, ...namedBy(ref, store.get(ref)?.pour?.batch?.id) }
    return [{ ...kept, ...grams, ...part, alternatives: [], id }]
  })
  const ratio = rung.build.brew?.ratio ?? null
  return {
    ...content,
    trial: {
      ...content.trial,
      method: rung.method ?? content.trial.method,
      ...(rung.method ? { retentionMilli: null, extractionBp: null, strengthBp: null } : {}),
      ratioMilli: ratio === null ? content.trial.ratioMilli : Math.round(ratio * 1000),
    },
    lines,
  }
}
