import { readObject, type QuestionColumns } from '../question'
import { dealSets, protocols, setSize, type Protocol } from './difference-sets'
import type { FoundInSetPlan, SetKindRoom, SetPlan } from './set-kind'

/** What the owner wants to know of the two: that they differ, or that few can tell. */
export const differenceAims = ['differ', 'alike'] as const
export type DifferenceAim = (typeof differenceAims)[number]

/** Can these tasters tell them apart? */
export interface DifferenceDesign {
  readonly kind: 'difference'
  readonly aim: DifferenceAim
  readonly protocol: Protocol
  /** of the forced choices what one cup has more of, as one says it of two: “sweeter”; the plan's first cup should have it */
  readonly property: string | null
  /** sets that each taster answers */
  readonly each: number
  /** percent of tasters who can really tell: to be found, or, where few should, the bound they are to stay below */
  readonly share: number
  /** how it is hidden what could be seen */
  readonly mask: string | null
}

export const differenceLimits = {
  share: { least: 5, most: 95 },
  /** half way from guessing to certainty is 50; 30 takes about 40 tasters with a triangle */
  usualShare: 30,
  each: { least: 1, most: 3 },
  /** two or three triangles in a sitting; common practice, no source */
  pourings: 9,
  /** letters of a property */
  property: 30,
  mask: 80,
} as const

export const isForced = (protocol: Protocol) => protocol === 'two-afc' || protocol === 'three-afc'

/**
 * Which method suits the aim?
 *
 *     a property is asked: two cups; none is: the triangle
 *
 * Source   our own choice among the standards' methods
 * Checked  test/unit/panel/kinds/difference.test.ts
 */
export function proposedProtocol(asksProperty: boolean): Protocol {
  return asksProperty ? 'two-afc' : 'triangle'
}

/** As the question is kept, and as the file of a panel names it. */
const names: Readonly<Record<Protocol, string>> = {
  triangle: 'Which of the three is different',
  'duo-trio': 'Which of the two is the reference',
  'two-afc': 'Which of the two has more of it',
  'three-afc': 'Which of the three has more of it',
  tetrad: 'Which two of the four are the same',
}

/**
 * “Can these tasters tell them apart?”: pourings of two cups in sets of two, three or four, one forced answer about each.
 *
 *     answer: the position of the odd one, of the one that is the reference, of the one with more; of a tetrad two positions, the
 *     lower first, that are the same
 *
 * Source   ISO 4120, ISO 10399, ISO 5495, ASTM E3009
 * Checked  test/unit/panel/kinds/difference.test.ts
 */
export const difference: SetKindRoom<DifferenceDesign> = {
  asks: 'odd',

  problems: (plan, design) => [...cupProblems(plan), ...designProblems(plan, design)],

  question: ({ protocol, property }) => ({
    name: isForced(protocol) && property !== null ? `Which one is ${property}` : names[protocol],
    kind: difference.asks,
    options: JSON.stringify({ protocol, property }),
  }),

  readDesign: ({ aim, protocol, property, each, share, mask }) => ({
    kind: 'difference',
    aim: differenceAims.find((one) => one === aim) ?? 'differ',
    protocol: protocolOf(protocol),
    property: typeof property === 'string' ? property : null,
    each: typeof each === 'number' ? each : differenceLimits.each.least,
    share: typeof share === 'number' ? share : differenceLimits.usualShare,
    mask: typeof mask === 'string' ? mask : null,
  }),

  isAnswer: (question, positions, answer) => {
    const protocol = protocolOf(readObject(question.options)['protocol'])
    const [one = 0, other = 0] = answer
    if (protocol === 'tetrad') return answer.length === 2 && one < other && answer.every((at) => positions.includes(at))
    const mayBe = protocol === 'duo-trio' ? positions.filter((at) => at !== Math.min(...positions)) : positions
    return answer.length === 1 && mayBe.includes(one)
  },

  ask: (question) => ({ kind: 'odd', ...askedOf(question) }),

  trays: {
    perSet: ({ protocol }) => setSize(protocol),
    pourings: ({ protocol, each }) => {
      const total = each * setSize(protocol)
      const isOdd = protocol === 'triangle' || protocol === 'duo-trio'
      const mostAtSeat = protocol === 'two-afc' ? each : 2 * each
      return { total, mostAtSeat, most: isOdd ? total / 2 : mostAtSeat }
    },
    deal: ({ protocol, each }, dealt, howMany, { seed, first }) => {
      // the cup with more of it is 1 in the arrangements, whatever its number in the panel's design
      const turn = (set: readonly number[]) => (first === 2 ? set.map((cup) => 3 - cup) : [...set])
      const size = setSize(protocol)
      const before = dealt.flatMap((tray) => slices(tray, size)).map(turn)
      const sets = dealSets(protocol, before, howMany * each, seed).map(turn)
      return slices(sets, each).map((tray) => tray.flat())
    },
  },
}

const slices = <One>(list: readonly One[], size: number): One[][] =>
  Array.from({ length: Math.floor(list.length / size) }, (_, at) => list.slice(at * size, (at + 1) * size))

function protocolOf(kept: unknown): Protocol {
  return protocols.find((one) => one === kept) ?? 'triangle'
}

/** What a phone is told of a question: the method, and the property's word where one is asked. */
function askedOf({ options }: Pick<QuestionColumns, 'options'>) {
  const { protocol, property } = readObject(options)
  return { protocol: protocolOf(protocol), property: typeof property === 'string' ? property : null }
}

function cupProblems({ cups, aspects, cupsPerTaster }: SetPlan): FoundInSetPlan[] {
  const found: FoundInSetPlan[] = []
  const own = cups.filter(({ isDuplicate }) => !isDuplicate).map(({ trialId }) => trialId)
  if (own.length < 2) found.push({ field: 'cups', problem: 'too-few-cups' })
  else if (own.length > 2) found.push({ field: 'cups', problem: 'two-cups-only' })
  else if (new Set(own).size < own.length) found.push({ field: 'cups', problem: 'same-trial-twice' })
  if (own.length < cups.length) found.push({ field: 'duplicate', problem: 'duplicate-of-two' })
  if (aspects.length > 0) found.push({ field: 'aspects', problem: 'only-its-own-question' })
  if (cupsPerTaster !== null) found.push({ field: 'cupsPerTaster', problem: 'all-cups-in-a-set' })
  return found
}

function designProblems({ seenThrough }: SetPlan, design: DifferenceDesign): FoundInSetPlan[] {
  const { aim, protocol, property, each, share, mask } = design
  const { least, most } = differenceLimits.each
  const found: FoundInSetPlan[] = []
  if (isForced(protocol) && property === null) found.push({ field: 'odd.property', problem: 'property-not-said' })
  if (!isForced(protocol) && property !== null) found.push({ field: 'odd.property', problem: 'property-for-nothing' })
  // few right may be many who find the other one sweeter: that few can tell is shown without a direction alone
  if (aim === 'alike' && property !== null) found.push({ field: 'odd.asks', problem: 'property-looks-one-way' })
  if (!Number.isInteger(each) || each < least || each > most)
    found.push({ field: 'odd.each', problem: 'answers-out-of-range' })
  else if (aim === 'alike' && each > 1) found.push({ field: 'odd.each', problem: 'one-answer-each' })
  else if (property !== null && each > 1) found.push({ field: 'odd.each', problem: 'one-answer-of-a-property' })
  else if (each * setSize(protocol) > differenceLimits.pourings)
    found.push({ field: 'odd.each', problem: 'too-many-pourings' })
  if (share < differenceLimits.share.least || share > differenceLimits.share.most)
    found.push({ field: 'odd.share', problem: 'telling-out-of-range' })
  // whoever sees which one it is tells nothing about taste
  if (seenThrough !== null && mask === null) found.push({ field: 'odd.mask', problem: 'seen-and-not-masked' })
  return found
}
