import * as z from 'zod'
import { PROGRAM_VERSION } from '@/lib/base/program'
import { ok, type Result } from '@/lib/base/result'
import type { BuildFigures, TrialBuild } from '@/lib/drink/trial'
import type { Figure, RangeFigure } from '@/lib/drink/figure'
import { fileOfTrial, parsedFrom, readKeptSheet, type TrialFileReason } from './trial-of-file'

/** The figures that stay as they were on the day: all but what labels, checks and cautions say, which is always today's. */
export type KeptFigures = Omit<BuildFigures, 'allergens' | 'cautions' | 'problems'>

/** What a trial was frozen with. */
export interface FrozenSheet {
  readonly build: TrialBuild
  /** null in a sheet of before figures were kept, and where they cannot be read */
  readonly figures: KeptFigures | null
}

const unknown = z.object({ known: z.literal(false), unit: z.string(), missing: z.array(z.string()) })
const working = {
  known: z.literal(true),
  value: z.number(),
  unit: z.string(),
  formula: z.string(),
  assumed: z.array(z.string()),
  sources: z.array(z.string()),
}
const figure: z.ZodType<Figure> = z.discriminatedUnion('known', [z.object(working), unknown])
const range: z.ZodType<RangeFigure> = z.discriminatedUnion('known', [
  z.object({ ...working, low: z.number(), high: z.number() }),
  unknown.extend({
    atLeast: z.object({ low: z.number(), high: z.number(), of: z.array(z.string()) }).optional(),
  }),
])

const KeptFiguresShape: z.ZodType<KeptFigures> = z.object({
  lines: z.array(
    z.object({
      key: z.string(),
      name: z.string(),
      grams: z.number(),
      inGlass: figure,
      volume: figure,
      sugars: figure,
      cost: figure,
      offTarget: z.object({ grams: z.number(), within: z.boolean() }).nullable(),
    }),
  ),
  brew: z.object({ beverage: figure, strength: figure, extraction: figure }).nullable(),
  totalMass: figure,
  volume: figure,
  fit: z.enum(['fits', 'over-fill-line', 'over-brim', 'not-known']),
  roomToBrim: figure,
  roomToFillLine: figure.nullable(),
  iceMelted: figure,
  temperature: figure,
  dilution: z.array(z.object({ minutes: z.number(), meltwater: figure, coffeeSolids: figure })),
  solidsBeforeMelt: figure,
  solidsAfterMelt: figure,
  sugars: figure,
  freeSugars: figure,
  sugarSources: z.array(z.object({ name: z.string(), grams: z.number(), free: z.number().nullable() })),
  shares: z.object({ who: figure, whoLower: figure, fda: figure }),
  sweetness: figure,
  fat: figure,
  protein: figure,
  energy: figure,
  caffeine: range,
  cost: z.object({
    ingredients: figure,
    waste: figure,
    packaging: figure,
    perGlass: figure,
    netPrice: figure,
    costShare: figure,
    contribution: figure,
    breakEven: figure,
    priceForTargetNet: figure,
    priceForTargetMenu: figure,
  }),
})

/** Around the exchange file, so that the file that leaves the house stays what it is. Before, the bare file was kept. */
const Envelope = z.object({
  kind: z.literal('sipwright-frozen-trial'),
  version: z.literal(1),
  /** the program that worked the figures out */
  program: z.string(),
  sheet: z.unknown(),
  figures: z.unknown(),
})

/** The text a trial is frozen with: its sheet, and every figure as it was worked out that day. */
export function writeFrozenSheet(build: TrialBuild, figures: BuildFigures): string {
  const { allergens: _labels, cautions: _cautions, problems: _checks, ...numbers } = figures
  const envelope: z.infer<typeof Envelope> = {
    kind: 'sipwright-frozen-trial',
    version: 1,
    program: PROGRAM_VERSION,
    sheet: fileOfTrial(build),
    figures: numbers,
  }
  return JSON.stringify(envelope)
}

/** Reads what a trial was frozen with, of any version. The shape decides alone: nothing that was frozen is checked again. */
export function readFrozenSheet(text: string): Result<FrozenSheet, TrialFileReason> {
  const parsed = parsedFrom(text)
  if (!parsed.ok) return parsed
  const envelope = Envelope.safeParse(parsed.value)
  const build = readKeptSheet(envelope.success ? envelope.data.sheet : parsed.value)
  if (!build.ok) return build
  const figures = KeptFiguresShape.safeParse(envelope.data?.figures)
  return ok({ build: build.value, figures: figures.success ? figures.data : null })
}
