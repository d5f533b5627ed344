import { demand } from '@/lib/base/demand'

/** Kilograms per cubic metre, the unit of the tables; divide by 1000 for g/ml. */
export type KgPerM3 = number

/**
 * How dense is pure water?
 *
 *     ρ(t) = (999.83952 + 16.952577 t − 7.9905127e−3 t² − 46.241757e−6 t³ + 105.84601e−9 t⁴ − 281.03006e−12 t⁵)
 *            / (1 + 16.887236e−3 t)
 *
 * @param celsius  t, 0 to 100
 * @throws RangeError  a temperature outside 0–100
 *
 * Source   ICUMSA SPS-4, water term (Bubnik et al. 1995)
 * Checked  test/reference/icumsa-sps4-density.test.ts
 */
export function waterDensity(celsius: number): KgPerM3 {
  demand(celsius >= 0 && celsius <= 100, `temperature must lie between 0 and 100 °C, got ${celsius}`)
  const t = celsius
  const top =
    999.83952 + t * (16.952577 + t * (-7.9905127e-3 + t * (-46.241757e-6 + t * (105.84601e-9 + t * -281.03006e-12))))
  return top / (1 + 16.887236e-3 * t)
}

// Rows: power of T = (t − 20)/100 from 0 to 4. Columns: power of w = Brix/100 from 1 up.
const SPS4: readonly (readonly number[])[] = [
  [385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.289],
  [-46.272, -7.172, 1.1597, 5.1126, 17.5254],
  [59.7712, 7.2491, 12.363, -35.4791],
  [-47.2207, -21.6977, 27.6301],
  [18.3184, 12.3081],
]

/**
 * How dense is a solution of pure sucrose?
 *
 *     ρ(w, t) = ρ_water(t) + Σᵢ Σⱼ aᵢⱼ wʲ Tⁱ,   w = Brix/100,   T = (t − 20)/100
 *
 * @param brix     g sucrose per 100 g, 0 to 100
 * @param celsius  t, 0 to 100
 * @throws RangeError  Brix or temperature outside its range
 *
 * Source   ICUMSA SPS-4, in Bubnik et al. (1995), Sugar Technologists' Manual
 * Checked  test/reference/icumsa-sps4-density.test.ts
 * Limits   Within 0.5 kg/m³ of the older handbook table up to 74 Brix, 0.8 at 84. Pure sucrose: brown sugar and honey
 *          differ by a few kg/m³. Above saturation it describes a liquid that may crystallise.
 */
export function sucroseDensity(brix: number, celsius: number): KgPerM3 {
  demand(brix >= 0 && brix <= 100, `Brix must lie between 0 and 100, got ${brix}`)
  const w = brix / 100
  const warm = (celsius - 20) / 100
  let density = waterDensity(celsius)
  let power = 1
  for (const row of SPS4) {
    density += power * w * row.reduceRight((inner, coefficient) => inner * w + coefficient, 0)
    power *= warm
  }
  return density
}

/**
 * Which Brix has this density?
 *
 *     the w for which ρ(w, t) = ρ, by halving the interval 0–100 Brix until it is narrower than 1e−9
 *
 * @param density  kg/m³
 * @param celsius  0 to 100
 * @returns        Brix, or null when no solution of sucrose at that temperature is so light or so heavy
 *
 * Source   inverse of ICUMSA SPS-4
 * Checked  test/reference/icumsa-sps4-density.test.ts
 */
export function brixOfDensity(density: KgPerM3, celsius: number): number | null {
  let low = 0
  let high = 100
  if (!(density >= sucroseDensity(low, celsius) && density <= sucroseDensity(high, celsius))) return null
  while (high - low > 1e-9) {
    const middle = (low + high) / 2
    if (sucroseDensity(middle, celsius) < density) low = middle
    else high = middle
  }
  return (low + high) / 2
}
