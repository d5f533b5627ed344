/**
 * Density and Brix of sucrose solutions.
 * Printed   CRC Handbook, concentrative properties of sucrose (from NBS Circular 440), kg/m³ at 20 °C: `HANDBOOK`.
 *           NBS Circular C440, pounds per US gallon weighed in air at 20 °C: `POUNDS`.
 *           Laboratory tables of Nicolaus Copernicus University, Toruń (node 18305), at 15 and 20 °C: `TORUN`.
 *           Sugar in a litre of 50, 60, 70 % solution: 614.8, 771.9, 943.1 g (CRC Handbook, same table).
 * Made      make/icumsa-sps4-density.py: the formula in 50 digits. Values under "computed" come from the cited formula.
 */
import { expect, test } from 'vitest'
import { brixByMass, brixByVolume, brixOfHydrometer } from '@/lib/drink/brix'
import { brixOfDensity, sucroseDensity } from '@/lib/drink/density'
import { swapSyrup, syrupBatch, weightAtBrix } from '@/lib/drink/syrup'
import exact from './data/icumsa-sps4-density.json'

const HANDBOOK: readonly (readonly [brix: number, density: number])[] = [
  [0, 998.2],
  [5, 1017.8],
  [10, 1038.1],
  [15, 1059.2],
  [20, 1081.0],
  [24, 1099.0],
  [26, 1108.2],
  [30, 1127.0],
  [34, 1146.4],
  [36, 1156.2],
  [40, 1176.5],
  [44, 1197.2],
  [46, 1207.9],
  [50, 1229.5],
  [54, 1251.8],
  [56, 1263.2],
  [60, 1286.4],
  [62, 1298.3],
  [64, 1310.3],
  [66, 1322.4],
  [68, 1334.8],
  [70, 1347.2],
  [74, 1372.6],
]
const ABOVE: readonly (readonly [number, number, number])[] = [
  [76, 1385.5, 0.5],
  [80, 1411.7, 0.6],
  [84, 1438.3, 0.9],
]
const POUNDS: readonly (readonly [number, number])[] = [
  [0, 8.322],
  [1, 8.354],
  [2, 8.387],
  [4, 8.452],
  [5, 8.486],
]
const TORUN: readonly (readonly [brix: number, at15: number, at20: number])[] = [
  [0, 999.13, 998.23],
  [5, 1018.84, 1017.84],
  [10, 1039.25, 1038.13],
  [15, 1060.41, 1059.16],
  [20, 1082.33, 1080.94],
  [25, 1105.07, 1103.54],
  [30, 1128.63, 1126.98],
  [35, 1153.06, 1151.27],
  [37, 1163.08, 1161.24],
]

test('to 74 Brix the formula keeps within 0.5 kg/m³ of the handbook', () => {
  for (const [brix, density] of HANDBOOK) expect(Math.abs(sucroseDensity(brix, 20) - density)).toBeLessThan(0.5)
})

test('above it, to 84 Brix, within 0.9 kg/m³, as its limits say', () => {
  for (const [brix, density, within] of ABOVE) expect(Math.abs(sucroseDensity(brix, 20) - density)).toBeLessThan(within)
})

test('at 15 and 20 °C it keeps within 0.1 kg/m³ of another published table', () => {
  for (const [brix, at15, at20] of TORUN) {
    expect(Math.abs(sucroseDensity(brix, 15) - at15)).toBeLessThan(0.1)
    expect(Math.abs(sucroseDensity(brix, 20) - at20)).toBeLessThan(0.1)
  }
})

test('a US gallon weighs what the circular prints, in air', () => {
  // Buoyancy: air 1.2 kg/m³ against brass weights of 8400 kg/m³; half a unit of the last printed figure and a little.
  for (const [brix, pounds] of POUNDS) {
    const grams = ((sucroseDensity(brix, 20) - 1.2) * 3.785411784) / (1 - 1.2 / 8400)
    expect(Math.abs(grams / 453.59237 - pounds)).toBeLessThan(0.001)
  }
})

test('from 0 to 84 Brix and 0 to 80 °C it equals the printed formula in 50 digits', () => {
  for (const { brix, celsius, value } of exact.cases) {
    expect(Math.abs(sucroseDensity(brix, celsius) - value)).toBeLessThan(exact.within)
  }
})

test('a litre of 50, 60 and 70 % solution holds the sugar the handbook prints', () => {
  for (const [brix, sugar] of [
    [50, 614.8],
    [60, 771.9],
    [70, 943.1],
  ] as const) {
    expect(Math.abs((brix / 100) * sucroseDensity(brix, 20) - sugar)).toBeLessThan(0.25)
  }
})

test('a hydrometer in water and at the end of its table reads 0 and 40 Brix (range stated with the formula)', () => {
  expect(Math.abs(brixOfHydrometer(1) ?? 1)).toBeLessThan(0.01)
  expect(Math.abs((brixOfHydrometer(1.17874) ?? 0) - 40)).toBeLessThan(0.01)
})

test('a hydrometer agrees with a second published formula of the same table, 28.14203 S + 202.4427 − 230.5870/S', () => {
  for (let s = 1; s < 1.178; s += 0.01) {
    expect(Math.abs((brixOfHydrometer(s) ?? 0) - (28.14203 * s + 202.4427 - 230.587 / s))).toBeLessThan(0.01)
  }
})

test('one to one by volume is 45.85 Brix and two to one 62.88, not 50 and 66.67 (computed from USDA 200 g per US cup)', () => {
  expect(Math.abs(brixByVolume(236.588, 236.588) - 45.85)).toBeLessThan(0.01)
  expect(Math.abs(brixByVolume(2 * 236.588, 236.588) - 62.88)).toBeLessThan(0.01)
  expect(brixByMass(3, 2)).toBe(60)
})

test('60 ml of syrup hold the sugar computed from the cited formula', () => {
  for (const [brix, sugar, mass] of [
    [50, 36.89, 73.8],
    [60, 46.32, 77.2],
    [65, 51.35, 79.0],
    [200 / 3, 53.07, 79.6],
  ] as const) {
    const density = sucroseDensity(brix, 20) / 1000
    expect(Math.abs(60 * density - mass)).toBeLessThan(0.05)
    expect(Math.abs((60 * density * brix) / 100 - sugar)).toBeLessThan(0.005)
  }
})

test('500 g sugar in 500 g water make 813 ml, 1000 in 500 make 1131, not 1500 (computed from the cited formula)', () => {
  const volume = (sugar: number, water: number) =>
    syrupBatch(
      [
        { grams: sugar, sugarFraction: 1 },
        { grams: water, sugarFraction: 0 },
      ],
      sugar + water,
    ).volumeMl
  expect(Math.abs(volume(500, 500) - 813.2)).toBeLessThan(0.05)
  expect(Math.abs(volume(1000, 500) - 1130.6)).toBeLessThan(0.05)
})

test('simmering and swapping come out as worked by hand (balance of mass)', () => {
  const cooked = (out: number) =>
    syrupBatch(
      [
        { grams: 500, sugarFraction: 1 },
        { grams: 500, sugarFraction: 0 },
      ],
      out,
    ).brix
  expect(Math.abs(cooked(900) - 55.56)).toBeLessThan(0.005)
  expect(Math.abs(cooked(850) - 58.82)).toBeLessThan(0.005)
  expect(Math.abs(weightAtBrix(1000, 50, 60) - 833.3)).toBeLessThan(0.05)
  expect(Math.abs(weightAtBrix(1000, 50, 65) - 769.2)).toBeLessThan(0.05)
  const one = sucroseDensity(50, 20) / 1000
  const two = sucroseDensity(200 / 3, 20) / 1000
  expect(Math.abs(swapSyrup(60 * one, 50, 200 / 3).grams / two - 41.7)).toBeLessThan(0.05)
})

test('Brix above 40 follows from a density of the handbook within 0.05', () => {
  for (const [brix, density] of HANDBOOK.filter(([b]) => b >= 40 && b <= 60)) {
    expect(Math.abs((brixOfDensity(density, 20) ?? 0) - brix)).toBeLessThan(0.05)
  }
})
