import 'server-only'
import { findSizePrices } from '@/lib/db/size-prices'
import { findVessels } from '@/lib/db/vessels'
import { AS_ON_SHEET } from '@/lib/drink/for-today'
import { computeBuild } from '@/lib/drink/build'
import type { BuildFigures, TrialBuild, Vessel } from '@/lib/drink/trial'
import { scaleSheet, type ScaleSheet } from '@/lib/drink/scale'
import { sizeOf, usualVessel, USUAL_SIZES, type Shares, type Sized } from '@/lib/drink/sizes'
import type { Reader, World } from '../world'
import { readTrial, type TrialSheet } from './read-trial'

/** The drink in one vessel, or why it cannot be said. */
export interface Size {
  readonly vessel: Vessel
  /** the vessel it was on the sheet in */
  readonly isOwn: boolean
  /** of the store, so that what it sells for can be kept; null: a usual size, or the sheet’s own, which sells at the recipe’s price */
  readonly priced: { readonly vesselId: string; readonly priceMinor: number | null } | null
  /** US fl oz of a usual size that is not in the store yet */
  readonly usual: number | null
  /** what the guest pays, tax included; null: it has no price */
  readonly menuPrice: number | null
  readonly made:
    | {
        readonly known: true
        readonly ml: number
        readonly shares: Sized['shares']
        readonly scale: ScaleSheet
        readonly figures: BuildFigures
      }
    | { readonly known: false; readonly missing: readonly string[] }
}

/**
 * A trial in the usual takeaway sizes and in every vessel of the store: scaled, and tasted by nobody, but in its own.
 *
 * @param asked  shares of ice and coffee, as fractions of the drink as built, each null: as on the sheet; null: those that the
 *               recipe keeps
 */
export async function readSizes(
  world: World,
  reader: Reader,
  trialId: string,
  asked: Shares | null,
): Promise<{ readonly sheet: TrialSheet; readonly kept: Shares; readonly sizes: readonly Size[] } | null> {
  const sheet = await readTrial(world, reader, trialId)
  if (!sheet) return null
  const { trial, build } = sheet
  const [vessels, prices] = await Promise.all([
    findVessels(world.db, reader.cafeId),
    findSizePrices(world.db, reader.cafeId, trial.recipeId),
  ])
  const { scales } = sheet.forToday
  const minor = 10 ** reader.cafe.currencyDigits
  const kept = { ice: share(trial.recipe.sizeIceBp), coffee: share(trial.recipe.sizeCoffeeBp) }
  const shares = asked ?? kept
  const asOnSheet = shares.ice === null && shares.coffee === null
  const own = vessels
    .filter((row) => row.archivedAt === null && !(asOnSheet && row.id === trial.vesselId))
    .map((row) => ({
      vessel: { name: row.name, brimMl: row.brimUl / 1000, fillMl: row.fillUl === null ? null : row.fillUl / 1000 },
      packagingCost: (trial.recipe.packMinor + (row.packMinor ?? 0)) / minor,
      heatLeak: row.leakMilli === null ? null : row.leakMilli / 1000,
      isOwn: false,
      priced:
        row.id === trial.vesselId
          ? null
          : { vesselId: row.id, priceMinor: prices.find(({ vesselId }) => vesselId === row.id)?.priceMinor ?? null },
      usual: null,
      // in other shares, too, its own glass sells at the recipe's price
      menuPrice: row.id === trial.vesselId ? build.money.menuPrice : null,
    }))
  const named = new Set(vessels.filter((row) => row.archivedAt === null).map(({ name }) => name))
  // Nobody has said what a cup of a usual size costs or lets in.
  const usualSizes = USUAL_SIZES.filter((ounces) => !named.has(usualVessel(ounces).name)).map((ounces) => ({
    vessel: usualVessel(ounces),
    usual: ounces,
    packagingCost: null,
    heatLeak: null,
    isOwn: false,
    priced: null,
    menuPrice: null,
  }))
  // Of its own day, as the sheet: a vessel may cost more by now.
  const sheets =
    build.vessel && asOnSheet
      ? [
          {
            vessel: build.vessel,
            packagingCost: build.money.packagingCost,
            heatLeak: build.room?.heatLeak ?? null,
            isOwn: true,
            priced: null,
            usual: null,
            menuPrice: build.money.menuPrice,
          },
        ]
      : []
  const sizes = [...usualSizes, ...sheets, ...own].map(
    ({ vessel, packagingCost, heatLeak, isOwn, priced, usual, menuPrice: own }): Size => {
      const menuPrice = priced && priced.priceMinor !== null ? priced.priceMinor / minor : own
      const size = { vessel, isOwn, priced, usual, menuPrice }
      const made = isOwn ? asIs(build, vessel) : sizeOf(build, vessel, shares)
      if (!made.known) return { ...size, made }
      const { money, room } = build
      const sized: TrialBuild = {
        ...made.build,
        // a size sells at its own price, and no fixed cost is borne by one of several sizes
        money: {
          ...money,
          packagingCost,
          menuPrice,
          fixedCost: null,
        },
        room: { temperature: room?.temperature ?? null, heatLeak },
      }
      const { ml, shares: held } = made
      return {
        ...size,
        made: {
          known: true,
          ml,
          shares: held,
          scale: scaleSheet(sized, 1, { ...AS_ON_SHEET, scales }),
          figures: computeBuild(sized),
        },
      }
    },
  )
  return { sheet, kept, sizes: sizes.toSorted((a, b) => a.vessel.brimMl - b.vessel.brimMl) }
}

const share = (basisPoints: number | null) => (basisPoints === null ? null : basisPoints / 10_000)

/** In its own vessel it is what it is: no line is moved to its fill line. */
function asIs(build: TrialBuild, vessel: Vessel) {
  const planned = { ...build, vessel, lines: build.lines.map((line) => ({ ...line, weighedGrams: null })) }
  const { volume } = computeBuild(planned)
  if (!volume.known) return volume
  const sized = sizeOf(planned, { ...vessel, fillMl: volume.value }, { ice: null, coffee: null })
  return sized.known ? { ...sized, build: planned } : sized
}
