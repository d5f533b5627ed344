import 'server-only'
import { findHouseScales } from '@/lib/db/cafes'
import type { Db, Tx } from '@/lib/db/engine/client'
import { USUAL_SCALES, type Scale, type Scales } from '@/lib/drink/house-scales'

/** What the house weighs on; what it did not say is as usual. */
export async function findScales(db: Db | Tx, cafeId: string): Promise<Scales> {
  const row = await findHouseScales(db, cafeId)
  return {
    doses: scaleOf(row.doseScaleName, row.doseScaleMg, USUAL_SCALES.doses),
    pours: scaleOf(row.pourScaleName, row.pourScaleMg, USUAL_SCALES.pours),
  }
}

const scaleOf = (name: string | null, milligrams: number | null, usual: Scale): Scale => ({
  // of a scale that nobody read the last digit of, its name says nothing
  name: milligrams === null ? null : name,
  division: milligrams === null ? usual.division : milligrams / 1000,
})
