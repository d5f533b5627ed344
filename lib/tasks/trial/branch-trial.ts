import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { addTrial, findTrial, type TrialContent, type TrialRow } from '@/lib/db/trials'
import { noteAct, type Actor, type World } from '../world'

/** Makes a draft that starts as its parent stands, so that one thing can be varied. @returns the child's id */
export async function branchTrial(
  world: World,
  actor: Actor,
  parentId: string,
  name: string,
): Promise<Result<string, 'gone'>> {
  return inTransaction(world, async (tx) => {
    const parent = await findTrial(tx, actor.cafeId, parentId)
    if (!parent) return no('gone')
    return ok(await copyTrial(world, tx, actor, parent, { name }))
  })
}

/** Where a copy goes that leaves its recipe: under whom it stands there, and which cost level each one here is there. */
interface Into {
  readonly recipeId: string
  readonly parentId: string | null
  readonly levels: ReadonlyMap<string, string>
}

/** One copy inside a running transaction; `vary` changes the content on the way, `into` is another recipe. */
export async function copyTrial(
  world: World,
  tx: Tx,
  actor: Actor,
  parent: TrialRow,
  change: { readonly name: string; readonly vary?: (content: TrialContent) => TrialContent; readonly into?: Into },
): Promise<string> {
  const id = world.id()
  const { into } = change
  const levelOf = (level: string) => (into ? (into.levels.get(level) ?? null) : level)
  const content: TrialContent = {
    trial: {
      name: change.name,
      method: parent.method,
      ratioKind: parent.ratioKind,
      ratioMilli: parent.ratioMilli,
      retentionMilli: parent.retentionMilli,
      extractionBp: parent.extractionBp,
      strengthBp: parent.strengthBp,
      vesselId: parent.vesselId,
      waterDeciC: parent.waterDeciC,
      brewSeconds: parent.brewSeconds,
      coffeeDeciC: parent.coffeeDeciC,
      iceDeciC: parent.iceDeciC,
      iceIsWet: parent.iceIsWet,
      costLevelId: parent.costLevelId && levelOf(parent.costLevelId),
    },
    // What was weighed belongs to the parent's glass, not to the child's.
    lines: parent.lines.map(({ cafeId: _c, trialId: _t, position: _p, alternatives, ...line }) => ({
      ...line,
      id: world.id(),
      weighedMg: null,
      alternatives: alternatives.flatMap(({ costLevel: _l, ...row }) => {
        const costLevelId = levelOf(row.costLevelId)
        return costLevelId === null ? [] : [{ ...row, id: world.id(), costLevelId }]
      }),
    })),
    steps: parent.steps.map(({ cafeId: _c, trialId: _t, position: _p, ...step }) => ({ ...step, id: world.id() })),
  }
  const number = await addTrial(
    tx,
    {
      id,
      cafeId: actor.cafeId,
      recipeId: into?.recipeId ?? parent.recipeId,
      parentId: into ? into.parentId : parent.id,
      createdAt: world.now(),
      createdById: actor.userId,
      isDemo: parent.isDemo,
    },
    change.vary ? change.vary(content) : content,
  )
  await noteAct(world, tx, actor, {
    act: 'trial-branched',
    subjectKind: 'trial',
    subjectId: id,
    detail: { number, from: parent.number },
  })
  return id
}
