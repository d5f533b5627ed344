import 'server-only'
import * as z from 'zod'
import type { Figure } from '@/lib/drink/figure'
import { readResult } from './read-result'
import { readResultGlasses, type ResultGlass } from './read-result-glasses'
import type { Reader, World } from '../world'

const figure = z.number().nullable()

const EvidenceFile = z.object({
  version: z.literal(1),
  /** what the panel was told; null where no panel was held */
  sentence: z.string().nullable(),
  /** what the same scores said on the day of the decision, where that was something else */
  today: z.string().nullable(),
  /** the same panel read with, or without, seats that were set aside; none in files of before that could be done */
  aside: z
    .array(z.object({ which: z.enum(['with-all', 'without-any']), seats: z.number(), sentence: z.string() }))
    .default([]),
  /** first less second, points */
  claims: z.array(
    z.object({
      first: z.string(),
      second: z.string(),
      difference: figure,
      low: figure,
      high: figure,
      tasters: z.number(),
    }),
  ),
  trials: z.array(
    z.object({
      /** null where no panel was held */
      letter: z.string().nullable(),
      trialId: z.string(),
      number: z.number(),
      name: z.string(),
      isHouse: z.boolean(),
      /** mean liking, points */
      liking: figure,
      /** of one glass, in the café's money of that day */
      cost: figure,
      /** grams in one glass */
      sugars: figure,
      /** what labels said; null where no glass could be read */
      labels: z
        .object({
          contains: z.array(z.string()),
          mayContain: z.array(z.string()),
          notStated: z.array(z.string()),
          unread: z.array(z.string()),
        })
        .nullable(),
      /** which batch of each preparation was poured, null where nobody kept it; none in files of before that was known */
      batches: z.array(z.object({ name: z.string(), batch: z.number().nullable() })).default([]),
    }),
  ),
  currency: z.string(),
})

/** What stood on the table when something was decided: kept with the decision, never worked out again. */
export type DecisionEvidence = z.infer<typeof EvidenceFile>

/** What a closed panel puts on the table today: its sentence, its intervals, and what each trial costs and holds. */
export async function gatherEvidence(world: World, reader: Reader, panelId: string): Promise<DecisionEvidence | null> {
  const [result, glasses] = await Promise.all([
    readResult(world, reader, panelId),
    readResultGlasses(world, reader, panelId),
  ])
  if (!result || !glasses) return null
  const liked = new Map(result.liking?.cups.map(({ cup, estimate }) => [cup, estimate]))
  return {
    version: 1,
    sentence: result.verdict.sentence,
    today: result.today?.verdict.sentence ?? null,
    aside: result.asideReadings.map(({ which, seats, verdict }) => ({ which, seats, sentence: verdict.sentence })),
    claims: result.claims.map(({ first, second, difference, interval, tasters }) => ({
      first,
      second,
      difference,
      low: interval?.[0] ?? null,
      high: interval?.[1] ?? null,
      tasters,
    })),
    trials: result.cups.map(({ letter, trialId, trialNumber, name, isHouse }) => ({
      letter,
      trialId,
      number: trialNumber,
      name,
      isHouse,
      liking: liked.get(letter) ?? null,
      ...ofGlass(glasses.find((glass) => glass.trialId === trialId)),
    })),
    currency: reader.cafe.currency,
  }
}

/** What is on the table where no panel was held: the glass alone. */
export function evidenceOfGlass(
  trial: { readonly number: number; readonly name: string },
  glass: ResultGlass,
  currency: string,
): DecisionEvidence {
  const { number, name } = trial
  const own = { letter: null, trialId: glass.trialId, number, name, isHouse: false, liking: null }
  return {
    version: 1,
    sentence: null,
    today: null,
    aside: [],
    claims: [],
    trials: [{ ...own, ...ofGlass(glass) }],
    currency,
  }
}

function ofGlass(glass: ResultGlass | undefined) {
  return {
    cost: glass ? valueOf(glass.cost) : null,
    sugars: glass ? valueOf(glass.sugars) : null,
    labels: glass ? listed(glass.labels) : null,
    batches: glass ? glass.batches.map((one) => ({ ...one })) : [],
  }
}

const listed = ({ contains, mayContain, notStated, unread }: ResultGlass['labels']) => ({
  contains: [...contains],
  mayContain: [...mayContain],
  notStated: [...notStated],
  unread: [...unread],
})

const valueOf = (one: Figure): number | null => (one.known ? one.value : null)

/** Reads what a decision keeps; null for one of before that was kept, and for a text that is none. Never throws. */
export function readEvidence(text: string | null): DecisionEvidence | null {
  if (text === null) return null
  try {
    const read = EvidenceFile.safeParse(JSON.parse(text))
    return read.success ? read.data : null
  } catch {
    return null
  }
}
