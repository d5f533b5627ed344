import 'server-only'
import { currencyDigits } from '@/lib/base/number-format'
import { fixed } from '@/lib/base/number-format'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { changeCafeFacts, requireCafe, type CafeFacts } from '@/lib/db/cafes'
import type { Tx } from '@/lib/db/engine/client'
import { findMoneyFigures, rescaleMoney, setPriceFigure, type MoneyFigure } from '@/lib/db/money-columns'
import type { CafeSettings } from '@/lib/forms/account-form'
import { MOST_KEPT } from '@/lib/forms/number-fields'
import { cafeMark, isStale, type OpenedWith } from '../opened-with'
import { noteAct, type Actor, type World } from '../world'

export type CurrencyRefusal = 'too-fine' | 'too-great'

/** Changes what the café is called and counts by. Every amount keeps its figure: 3.50 stays 3.50 in any currency. */
export async function changeCafe(
  world: World,
  actor: Actor,
  wanted: CafeSettings,
  opened: OpenedWith | null,
): Promise<Result<null, CurrencyRefusal | 'saved-elsewhere'>> {
  return inTransaction(world, async (tx) => {
    const before = await requireCafe(tx, actor.cafeId)
    if (isStale(opened, cafeMark(before))) return no('saved-elsewhere')
    // The same currency keeps its decimals, even where this computer would count them otherwise.
    const digits = wanted.currency === before.currency ? before.currencyDigits : (currencyDigits(wanted.currency) ?? 2)
    const kept = await keepFigures(tx, actor.cafeId, before, digits)
    if (!kept.ok) return kept
    await changeCafeFacts(tx, actor.cafeId, {
      name: wanted.cafeName,
      currency: wanted.currency,
      currencyDigits: digits,
      allergenList: wanted.allergenList,
      timeZone: wanted.timeZone,
    })
    await noteAct(world, tx, actor, {
      act: 'cafe-changed',
      subjectKind: 'cafe',
      subjectId: actor.cafeId,
      detail: { currency: wanted.currency, allergenList: wanted.allergenList, timeZone: wanted.timeZone },
    })
    return ok(null)
  })
}

const namedAtMost = 4

async function keepFigures(
  tx: Tx,
  cafeId: string,
  { currency, currencyDigits: had }: CafeFacts,
  digits: number,
): Promise<Result<null, CurrencyRefusal>> {
  if (digits === had) return ok(null)
  const figures = await findMoneyFigures(tx, cafeId)
  const moved = (minor: number) => (digits > had ? minor * 10 ** (digits - had) : minor / 10 ** (had - digits))
  const said = ({ minor }: MoneyFigure) => fixed(minor / 10 ** had, had)
  const isFine = ({ minor }: MoneyFigure) => !Number.isInteger(moved(minor))
  const isGreat = ({ minor }: MoneyFigure) => Math.abs(moved(minor)) > MOST_KEPT
  const inTheWay = figures.filter((figure) => figure.struckPriceId === null && (isFine(figure) || isGreat(figure)))
  const [first] = inTheWay
  if (first) {
    const named = inTheWay.slice(0, namedAtMost).map((figure) => `${said(figure)} (${figure.of})`)
    const rest = inTheWay.length - named.length
    const detail = { figures: `${named.join(', ')}${rest > 0 ? ` and ${rest} more` : ''}` }
    return no(isFine(first) ? 'too-fine' : 'too-great', detail)
  }
  // A struck price counts nowhere and cannot be mended any more: it stands in no way, and its note keeps what it said.
  const lost = figures.filter((figure) => isFine(figure) || isGreat(figure))
  for (const { struckPriceId, note } of lost) await setPriceFigure(tx, cafeId, struckPriceId ?? '', 0, note ?? '')
  await rescaleMoney(tx, cafeId, digits > had ? { multiply: 10 ** (digits - had) } : { divide: 10 ** (had - digits) })
  for (const figure of lost) {
    const minor = Math.min(MOST_KEPT, Math.round(moved(figure.minor)))
    const note = `${figure.note ? `${figure.note}; ` : ''}it said ${said(figure)} ${currency}`
    await setPriceFigure(tx, cafeId, figure.struckPriceId ?? '', minor, note)
  }
  return ok(null)
}
