import 'server-only'
import { plain } from '@/lib/base/number-format'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { setCounted } from '@/lib/db/shelf'
import { noteAct, type Reader, type World } from '../world'
import { readOnShelf, type OnShelf } from './on-shelf'

/**
 * Keeps what somebody counted of the things a trial is made of, with the moment. What stands in a field as it was kept today
 * was not counted again, and keeps its moment.
 *
 * @param query  grams typed on the page, by field
 * @returns      how many counts were kept, without what was put aside meanwhile; `gone` where that is all of it, `mistyped`
 *               where a field holds no amount, and then none is
 */
export async function keepCounts(
  world: World,
  actor: Reader,
  trialId: string,
  query: Readonly<Record<string, string | undefined>>,
): Promise<Result<number, 'gone' | 'mistyped'>> {
  const shelf = await readOnShelf(world, actor, trialId, query)
  if (shelf.some(({ problem }) => problem !== undefined)) return no('mistyped')
  const said = shelf.filter(isNew)
  if (said.length === 0) return ok(0)
  return inTransaction(world, async (tx) => {
    const kept: Said[] = []
    for (const one of said) {
      const of = { cafeId: actor.cafeId, kind: one.kind, id: one.id }
      if (await setCounted(tx, of, { shelfMg: milligrams(one.grams), shelfAt: world.now() })) kept.push(one)
    }
    if (kept.length === 0) return no('gone')
    await noteAct(world, tx, actor, {
      act: 'shelf-counted',
      subjectKind: 'trial',
      subjectId: trialId,
      detail: { counted: kept.map(sayCount).join('; ') },
    })
    return ok(kept.length)
  })
}

const milligrams = (grams: number) => Math.round(grams * 1000)

type Said = OnShelf & { readonly grams: number }

const isNew = (one: OnShelf): one is Said =>
  one.grams !== null && !(one.counted?.nights === 0 && milligrams(one.counted.grams) === milligrams(one.grams))

const sayCount = ({ name, number, grams }: Said) =>
  `${name}${number === null ? '' : `, batch ${number}`}: ${plain(grams, 3)} g`
