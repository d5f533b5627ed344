import type { PanelReading } from '@/lib/tasks/plan/panel-reading'

type Asks = Extract<NonNullable<PanelReading['plan']['asks']>, { readonly kind: 'difference' }>
export type Protocol = Asks['protocol']

/** Each method by its name. */
export const methodNames: Readonly<Record<Protocol, string>> = {
  triangle: 'triangle',
  'duo-trio': 'duo-trio',
  'two-afc': 'two alternatives',
  'three-afc': 'three alternatives',
  tetrad: 'tetrad',
}

/** What a taster does, and how often luck alone is right. */
export const methodWords: Readonly<Record<Protocol, string>> = {
  triangle: 'three cups, two of them the same: which is different? Luck is right one time in three.',
  'duo-trio': 'a reference, then two cups: which is the same as it? Luck is right one time in two.',
  'two-afc': 'two cups: which has more of it? Luck is right one time in two.',
  'three-afc': 'three cups, one with more of it: which? Luck is right one time in three.',
  tetrad: 'four cups, two of each: which belong together? Luck is right one time in three.',
}

/** Why this method, of those one could take. */
export function sayWhyMethod({ aim, protocol }: Pick<Asks, 'aim' | 'protocol'>): string {
  switch (protocol) {
    case 'triangle':
      return aim === 'alike'
        ? 'So fewer tasters show that few can tell than where luck is right one time in two.'
        : 'It asks for no property, and three cups tire little.'
    case 'duo-trio':
      return 'The easiest task for a taster, as the reference is named; luck is right more often, so it takes more tasters.'
    case 'two-afc':
      return 'Two cups only, and who knows what to look for finds a smaller difference.'
    case 'three-afc':
      return 'Who knows what to look for finds a smaller difference; three cups, and luck is right less often than with two.'
    case 'tetrad':
      return 'It finds a smaller difference than a triangle, for one cup more.'
  }
}

const times = (each: number) => (each === 1 ? 'once each' : `${each} times each, with other cups each time`)

/** What is asked of tasters. */
export function sayDifferenceAsked({ protocol, property, each }: Asks): string {
  const what = property === null ? '' : ` (“${property}”)`
  return `${methodNames[protocol]}${what}, ${times(each)}: ${methodWords[protocol]}`.replace(/\.$/, '')
}

/** The sentence that is fixed before the first cup. @param names  the cup with more of the property first */
export function sayDifferencePlan({ aim, property, share }: Asks, names: readonly string[]): string {
  const [one = 'one', other = 'the other'] = names
  const which = property === null ? '' : ` Expected is that ${one} is ${property}.`
  return aim === 'alike'
    ? `Can so few tell ${one} from ${other} that it does not matter? Few is fewer than ${share} in a hundred.${which}`
    : `Can tasters tell ${one} from ${other}? It is to be found if ${share} in a hundred really can.${which}`
}
