import 'server-only'
import { findSizePrices } from '@/lib/db/size-prices'
import { findVessels } from '@/lib/db/vessels'
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
 * @param shares  of ice and coffee, as fractions of the drink as built; null: as on the sheet
 */
export async function readSizes(
  world: World,
  reader: Reader,
  trialId: string,
  shares: Shares,
): Promise<{ readonly sheet: TrialSheet; readonly sizes: readonly Size[] } | null> {
  const sheet = await readTrial(world, reader, trialId)
  if (!sheet) return null
  const { trial, build } = sheet
  const [vessels, prices] = await Promise.all([
    findVessels(world.db, reader.cafeId),
    findSizePrices(world.db, reader.cafeId, trial.recipeId),
  ])
  const minor = 10 ** reader.cafe.currencyDigits
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
      menuPrice: null,
    }))
  // Nobody has said what a cup of a usual size costs or lets in.
  const usual = USUAL_SIZES.map((ounces) => ({
    vessel: usualVessel(ounces),
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
            menuPrice: build.money.menuPrice,
          },
        ]
      : []
  const sizes = [...usual, ...sheets, ...own].map(
    ({ vessel, packagingCost, heatLeak, isOwn, priced, menuPrice }): Size => {
      const made = isOwn ? asIs(build, vessel) : sizeOf(build, vessel, shares)
      if (!made.known) return { vessel, isOwn, priced, made }
      const { money, room } = build
      const sized: TrialBuild = {
        ...made.build,
        // a size sells at its own price, and no fixed cost is borne by one of several sizes
        money: {
          ...money,
          packagingCost,
          menuPrice: priced && priced.priceMinor !== null ? priced.priceMinor / minor : menuPrice,
          fixedCost: null,
        },
        room: { temperature: room?.temperature ?? null, heatLeak },
      }
      const { ml, shares: held } = made
      return {
        vessel,
        isOwn,
        priced,
        made: { known: true, ml, shares: held, scale: scaleSheet(sized, 1), figures: computeBuild(sized) },
      }
    },
  )
  return { sheet, sizes: sizes.toSorted((a, b) => a.vessel.brimMl - b.vessel.brimMl) }
}

/** In its own vessel it is what it is: no line is moved to its fill line. */
function asIs(build: TrialBuild, vessel: Vessel) {
  const planned = { ...build, vessel, lines: build.lines.map((line) => ({ ...line, weighedGrams: null })) }
  const { volume } = computeBuild(planned)
  if (!volume.known) return volume
  const sized = sizeOf(planned, { ...vessel, fillMl: volume.value }, { ice: null, coffee: null })
  return sized.known ? { ...sized, build: planned } : sized
}
