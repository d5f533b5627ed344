import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findPanel } from '@/lib/db/panels'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { addDecision } from '@/lib/db/recipes'
import { countDecisionsOfPanel, setDecided } from '@/lib/db/results'
import type { DecisionSent } from '@/lib/forms/decision-form'
import { gatherEvidence } from './decision-evidence'
import { decisionMark, isStale, type OpenedWith } from '../opened-with'
import { noteAct, type Reader, type World } from '../world'

export type DecisionRefusal = 'not-closed' | 'trial-not-served' | 'no-house-recipe' | 'decided-since'

/**
 * Settles what a closed panel was for: adopt one of its trials, keep the present house recipe, or test again.
 * A reason always stands beside it, and what was on the table that day. Deciding again adds a decision; none is rewritten.
 *
 * @param opened  what the panel and the house recipe were when it was typed: sent twice, it is asked about, not done twice
 */
export async function decide(
  world: World,
  actor: Reader,
  panelId: string,
  sent: DecisionSent,
  opened: OpenedWith | null = null,
): Promise<Result<{ recipeId: string; version: number | null }, DecisionRefusal>> {
  // Scores of a closed panel change no more: what they say can be worked out before the pen is taken up.
  const evidence = await gatherEvidence(world, actor, panelId)
  return inTransaction(world, async (tx) => {
    const panel = await findPanel(tx, actor.cafeId, panelId)
    if (!panel || (panel.stage !== 'closed' && panel.stage !== 'decided')) return no('not-closed')
    const recipeId = panel.recipe.id
    const house = await findHouseRecipe(tx, actor.cafeId, recipeId)
    const now = decisionMark(await countDecisionsOfPanel(tx, actor.cafeId, panelId), house?.trialId ?? null)
    if (isStale(opened, now)) return no('decided-since', { opened: now })
    if (sent.kind === 'adopt' && !panel.cups.some((cup) => cup.trialId === sent.trialId)) return no('trial-not-served')
    if (sent.kind === 'keep' && !house) return no('no-house-recipe')
    const trialId =
      sent.kind === 'adopt' ? (sent.trialId ?? null) : sent.kind === 'keep' ? (house?.trialId ?? null) : null
    const version = await addDecision(tx, {
      id: world.id(),
      cafeId: actor.cafeId,
      recipeId,
      panelId,
      kind: sent.kind,
      trialId,
      reason: sent.reason,
      evidence: evidence && JSON.stringify(evidence),
      at: world.now(),
      byId: actor.userId,
    })
    await setDecided(tx, actor.cafeId, panelId)
    await noteAct(world, tx, actor, {
      act:
        sent.kind === 'adopt'
          ? 'house-recipe-adopted'
          : sent.kind === 'keep'
            ? 'house-recipe-kept'
            : 'test-again-decided',
      subjectKind: 'panel',
      subjectId: panelId,
      detail: { version },
    })
    return ok({ recipeId, version })
  })
}
