import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { changeRecipe } from '@/lib/db/recipes'
import { findTrial } from '@/lib/db/trials'
import type { Shares } from '@/lib/drink/sizes'
import { noteAct, type Actor, type World } from '../world'

/** Keeps the shares of ice and coffee that every size of a trial’s recipe holds. @param shares  fractions; null: as on the sheet */
export async function keepSizeShares(
  world: World,
  actor: Actor,
  trialId: string,
  shares: Shares,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    const trial = await findTrial(tx, actor.cafeId, trialId)
    if (!trial) return no('gone')
    const [sizeIceBp, sizeCoffeeBp] = [basisPoints(shares.ice), basisPoints(shares.coffee)]
    await changeRecipe(tx, actor.cafeId, trial.recipeId, { sizeIceBp, sizeCoffeeBp })
    await noteAct(world, tx, actor, {
      act: 'size-shares-kept',
      subjectKind: 'recipe',
      subjectId: trial.recipeId,
      detail: { ice: said(shares.ice), coffee: said(shares.coffee) },
    })
    return ok(null)
  })
}

const basisPoints = (share: number | null) => (share === null ? null : Math.round(share * 10_000))
const said = (share: number | null) => (share === null ? 'as on the sheet' : `${Math.round(share * 1000) / 10} %`)
