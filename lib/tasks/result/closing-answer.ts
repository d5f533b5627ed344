import 'server-only'
import * as z from 'zod'
import { PROGRAM_VERSION } from '@/lib/base/program'
import { no, ok, type Result } from '@/lib/base/result'
import type { PanelAnswer } from './answer-panel'
import type { Verdict } from './say-verdict'

/** The way today's sentences are found. A change of what a panel is told for the same scores is a new name. */
const METHOD = 'joint-intervals-2026-11'

/** What a way of computing was, for who reads an older panel. */
const methodWords: Readonly<Record<string, string>> = {
  'paired-or-model-2026-11':
    'each verdict came from a test of its own, on the tasters’ own differences where no score was missing and otherwise on one spread for all cups, with p after Holm',
  'joint-intervals-2026-11':
    'every sentence is read off one interval for each planned comparison, which all hold together, and whose error believes only in the tasters',
}

// JSON has no infinity and no "not a number": a figure that was one is read back as null.
const figure = z.number().nullable()
const interval = z.tuple([figure, figure]).nullable()
const outcome = z.string()

const comparison = z.object({
  first: z.string(),
  second: z.string(),
  difference: figure,
  interval,
  p: figure,
  preferFirst: figure,
  preferSecond: figure,
  tied: figure,
  told: outcome,
})

/** The statistics as they were computed. Loose: what this version does not know of a later one's answer is kept, not lost. */
const acceptance = z.looseObject({
  level: figure,
  method: z.string(),
  notes: z.array(z.string()),
  counts: z.looseObject({ tasters: figure, cups: figure, scores: figure, missing: figure }),
  model: z.looseObject({
    formula: z.string(),
    variance: z.looseObject({ taster: figure, tasterByCup: figure, residual: figure }),
  }),
  cups: z.array(
    z.looseObject({ cup: z.string(), n: figure, mean: figure, sd: figure, estimate: figure, se: figure, interval }),
  ),
  pairs: z.array(
    z.looseObject({
      a: z.string(),
      b: z.string(),
      difference: figure,
      se: figure,
      df: figure,
      interval,
      paired: z.looseObject({ n: figure, difference: figure, se: figure, df: figure, interval }),
      verdict: z.looseObject({ basis: z.string(), pHolm: figure, outcome }),
    }),
  ),
  control: z.looseObject({ cup: z.string(), pairs: z.array(z.looseObject({ cup: z.string() })) }).nullable(),
  margin: z.looseObject({ margin: figure, pairs: z.array(z.looseObject({ a: z.string(), b: z.string() })) }).nullable(),
})

const verdict = z.object({
  sentence: z.string(),
  numbers: z.array(z.string()),
  margin: z.array(z.string()),
  next: z.string(),
  told: z.enum(['better', 'cannot-tell', 'nothing']),
})

const made = {
  /** how the sentences were found, and the program that did */
  method: z.string(),
  program: z.string(),
}

const cup = z.object({
  letter: z.string(),
  trialId: z.string(),
  trialNumber: z.number(),
  name: z.string(),
  isHouse: z.boolean(),
  isTwice: z.boolean(),
})

/** our own failure: a panel is closed all the same */
const notComputed = { ...made, outcome: z.literal('not-computed'), why: z.string() }

/** Panels closed under the first rule. */
const FirstFile = z.discriminatedUnion('outcome', [
  z.object({
    ...made,
    version: z.literal(1),
    outcome: z.literal('answered'),
    plan: z.object({
      kind: z.string(),
      house: z.string().nullable(),
      pair: z.tuple([z.string().nullable(), z.string().nullable()]),
      smallestDifference: z.number(),
      margin: z.number().nullable(),
    }),
    cups: z.array(cup),
    verdict,
    needed: z.object({ tasters: figure, difference: figure, spread: figure }).nullable(),
    why: z.string().nullable(),
    primary: z.array(comparison),
    pairs: z.array(comparison),
    liking: acceptance.nullable(),
    aspects: z.array(
      z.object({
        attributeId: z.string(),
        name: z.string(),
        answer: acceptance.nullable(),
        why: z.string().nullable(),
      }),
    ),
  }),
  z.object({ ...notComputed, version: z.literal(1) }),
])

/** The statistics of one analysis. Loose, as above. */
const analysis = z.looseObject({
  level: figure,
  method: z.string(),
  notes: z.array(z.string()),
  counts: z.looseObject({ tasters: figure, cups: figure, scores: figure, missing: figure }),
  claims: z.array(
    z.looseObject({ a: z.string(), b: z.string(), difference: figure, low: figure, high: figure, claim: z.string() }),
  ),
  /** each cup as the result page draws it; an answer that keeps none in this shape is read all the same */
  cups: z
    .array(z.looseObject({ cup: z.string(), n: figure, estimate: figure, robust: z.looseObject({ interval }) }))
    .optional()
    .catch(undefined),
})

/** Panels whose sentences are read off joint intervals. */
const IntervalFile = z.discriminatedUnion('outcome', [
  z.object({
    ...made,
    version: z.literal(2),
    outcome: z.literal('answered'),
    plan: z.looseObject({ aim: z.string(), kind: z.string() }),
    cups: z.array(cup),
    /** null of a panel whose question has its own analysis */
    headline: z.looseObject({ code: z.string() }).nullable(),
    verdict,
    needed: z
      .looseObject({
        tasters: figure,
        least: figure,
        most: figure,
        difference: figure,
        for: z.string(),
        spread: figure,
      })
      .nullable(),
    why: z.string().nullable(),
    /** of a panel that asked about sets: whose answers are a person's later ones, as long as names told it */
    choice: z
      .looseObject({ later: z.array(z.number()) })
      .nullish()
      .catch(undefined),
    /** the same of a panel that put its cups in order */
    rank: z
      .looseObject({ later: z.array(z.number()) })
      .nullish()
      .catch(undefined),
    difference: z
      .looseObject({ later: z.array(z.number()) })
      .nullish()
      .catch(undefined),
    primary: analysis.nullable(),
    liking: analysis.nullable(),
    aspects: z.array(
      z.object({
        attributeId: z.string(),
        name: z.string(),
        answer: analysis.nullable(),
        why: z.string().nullable(),
      }),
    ),
  }),
  z.object({ ...notComputed, version: z.literal(2) }),
])

const ClosingAnswerFile = z.union([FirstFile, IntervalFile])

/** What a panel was told at closing, as it is kept. */
export type ClosingAnswer = z.infer<typeof ClosingAnswerFile>
export type AnsweredAtClosing = Extract<ClosingAnswer, { outcome: 'answered' }>
/** What panels were told under the first rule. */
export type FirstAnswered = Extract<AnsweredAtClosing, { version: 1 }>

/**
 * The text that a closed panel keeps. Whatever goes wrong in the statistics, there is one: closing never fails for it.
 *
 * @param compute  the answer of this panel
 */
export function writeClosingAnswer(compute: () => PanelAnswer): string {
  const head = { version: 2, method: METHOD, program: PROGRAM_VERSION } as const
  try {
    return JSON.stringify({ ...head, outcome: 'answered', ...compute() })
  } catch (error) {
    if (!(error instanceof Error)) throw error
    return JSON.stringify({ ...head, outcome: 'not-computed', why: `${error.name}: ${error.message}` })
  }
}

/** Reads what a panel keeps. Never throws: a text that cannot be read is a reason, and the page goes on without it. */
export function readClosingAnswer(text: string): Result<ClosingAnswer, 'unreadable'> {
  try {
    const read = ClosingAnswerFile.safeParse(JSON.parse(text))
    return read.success ? ok(read.data) : no('unreadable')
  } catch {
    return no('unreadable')
  }
}

/** Seats whose answers were a person's later ones at closing; null where nothing says. */
export function keptLater(kept: Result<ClosingAnswer, 'unreadable'> | null): readonly number[] | null {
  if (!kept?.ok || kept.value.outcome !== 'answered' || kept.value.version !== 2) return null
  return (kept.value.choice ?? kept.value.rank ?? kept.value.difference)?.later ?? null
}

/** What is said differently today, in the reader's words; empty where the page says what it said at closing. */
export function whatChanged(kept: AnsweredAtClosing, today: PanelAnswer): readonly string[] {
  if (sayAll(kept.verdict) === sayAll(today.verdict)) return []
  const before = kept.liking?.counts.scores ?? 0
  const now = today.liking?.counts.scores ?? 0
  const changed: string[] = []
  if (before !== now) changed.push(`${before} scores counted then, ${now} count now.`)
  if (kept.method !== METHOD)
    changed.push(
      `The way of computing changed. Then ${methodWords[kept.method] ?? `“${kept.method}”`}; now ${methodWords[METHOD]}.`,
    )
  if (kept.program !== PROGRAM_VERSION)
    changed.push(`It was computed by version ${kept.program}; this is version ${PROGRAM_VERSION}.`)
  const lines = (said: Pick<Verdict, 'numbers' | 'margin' | 'next'>) => [...said.numbers, ...said.margin]
  for (const line of lines(today.verdict)) if (!lines(kept.verdict).includes(line)) changed.push(`Today: ${line}`)
  return changed
}

const sayAll = (said: Pick<Verdict, 'sentence' | 'numbers' | 'margin' | 'next'>) =>
  JSON.stringify([said.sentence, said.numbers, said.margin, said.next])
