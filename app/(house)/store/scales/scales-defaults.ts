import { DIVISION, printed } from '@/lib/forms/number-fields'
import type { readScales } from '@/lib/tasks/store/read-scales'

type Said = Awaited<ReturnType<typeof readScales>>

/** The scales as their form holds them. */
export function scalesDefaults({ doseScaleName, doseScaleMg, pourScaleName, pourScaleMg }: Said) {
  const division = (milligrams: number | null) => printed(milligrams === null ? null : milligrams / 1000, DIVISION)
  return {
    doseName: doseScaleName ?? '',
    doseDivision: division(doseScaleMg),
    pourName: pourScaleName ?? '',
    pourDivision: division(pourScaleMg),
  }
}
