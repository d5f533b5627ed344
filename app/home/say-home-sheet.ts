import { plain } from '@/lib/base/number-format'
import type { HomeSheetContent, HomeWarnings } from '@/lib/forms/home-sheet'
import type { HomeSheetToday } from '@/lib/tasks/home/sheet-today'
import { sayBrewing } from '@/app/(house)/trials/[trialId]/say-brewing'
import { sayDay } from '@/app/ui/moment'

/** One thing to weigh: how much of what, and what is to be known of it. */
export interface HomeLineWords {
  readonly name: string
  readonly amount: string
  readonly notes: readonly string[]
}

/** A sheet in words, the same on paper, in the file and behind the link. */
export interface HomeSheetWords {
  readonly title: string
  /** whose it is, which version and of which day */
  readonly head: readonly string[]
  /** what has changed since it was given out: above all else */
  readonly changed: readonly string[]
  /** what it is not */
  readonly standing: string
  readonly lines: readonly HomeLineWords[]
  readonly steps: readonly string[]
  readonly made: readonly {
    readonly name: string
    readonly lines: readonly HomeLineWords[]
    readonly steps: readonly string[]
    readonly notes: readonly string[]
  }[]
  /** label first, then what it says */
  readonly allergens: readonly (readonly [label: string, words: string])[]
  readonly cautions: readonly string[]
  readonly mark: string
}

export function sayHomeSheet(sheet: HomeSheetToday, zone: string): HomeSheetWords {
  const { content } = sheet
  const warnings = sheet.today ?? content.warnings
  return {
    title: content.recipe,
    head: [
      `${content.cafe}, for making at home`,
      `Sheet ${sheet.version} of ${sayDay(sheet.createdAt, zone)}: ${sayTrial(content)}`,
      [content.method, content.vessel === null ? '' : `at the café in: ${content.vessel}`].filter(Boolean).join(' · '),
    ],
    changed: sayChanged(sheet, zone),
    standing: sayStanding(content),
    lines: content.lines.map(sayLine),
    steps: content.steps.map(({ text, seconds }) => (seconds === null ? text : `${text} (${seconds} s)`)),
    made: content.made.map(sayMade),
    allergens: sayAllergens(warnings),
    cautions: sayCautions(warnings),
    mark: sheet.mark,
  }
}

function sayTrial({ standing, houseVersion, trial }: HomeSheetContent): string {
  const named = `trial ${trial.number}, ${trial.name}`
  if (standing === 'house') return `house recipe ${houseVersion ?? ''}, ${named}`.replace(/ +,/, ',')
  return standing === 'draft' ? `a draft, ${named}` : `not the house recipe, ${named}`
}

function sayStanding({ standing, tasted }: HomeSheetContent): string {
  const notThat = 'Made at home it is not the café’s drink'
  if (standing === 'draft') return `Nobody has tasted this: it is a draft. ${notThat} either.`
  return tasted
    ? `${notThat}: it was tasted as poured there.`
    : `${notThat}: amounts and times are those of the café’s own things.`
}

function sayChanged({ content, today, unreadable, superseded }: HomeSheetToday, zone: string): string[] {
  const said: string[] = []
  const before = content.warnings
  if (unreadable) said.push('What its labels say could not be read again: ask the café before anybody drinks it.')
  if (today) {
    const newly = (list: (of: HomeWarnings) => readonly string[]) =>
      list(today).filter((one) => !list(before).includes(one))
    const [contains, may, unread] = [newly((of) => of.contains), newly((of) => of.mayContain), newly((of) => of.unread)]
    const parts = [
      contains.length > 0 ? `now known to contain ${contains.join(', ')}` : '',
      may.length > 0 ? `may contain ${may.join(', ')}` : '',
      unread.length > 0 ? `the label of ${unread.join(', ')} is not read any more` : '',
    ].filter(Boolean)
    said.push(
      `Its labels or cautions have changed since this sheet was given out${parts.length > 0 ? `: ${parts.join('; ')}` : ''}. What stands below is today’s.`,
    )
  }
  if (superseded)
    said.push(
      `The café makes another one since ${sayDay(superseded.at, zone)}: house recipe ${superseded.version}. Ask for a new sheet.`,
    )
  return said
}

type Amount = Pick<HomeSheetContent['lines'][number], 'grams' | 'ml' | 'assumedDensity' | 'home'>

function sayAmount({ grams, ml, assumedDensity, home }: Amount): string {
  if (grams === null) return 'not known'
  const by = assumedDensity === null ? '' : ` at ${plain(assumedDensity, 3)} g/ml, assumed`
  const also = [ml === null ? '' : `${plain(ml, ml < 10 ? 1 : 0)} ml${by}`, home ?? ''].filter(Boolean)
  return `${plain(grams, 1)} g${also.length > 0 ? ` (${also.join(', ')})` : ''}`
}

function sayLine(line: HomeSheetContent['lines'][number]): HomeLineWords {
  const notes: string[] = []
  if (line.brew) {
    const how = sayBrewing(line.brew)
    if (how !== '') notes.push(`Brew it: ${how}.`)
    if (line.brew.gives !== null) notes.push(`Pour ${plain(line.brew.gives, 1)} g of the coffee.`)
  }
  if (line.isMade) notes.push('Made in the house: see below.')
  return { name: line.name, amount: sayAmount(line), notes }
}

function sayMade(made: HomeSheetContent['made'][number]): HomeSheetWords['made'][number] {
  const { name, inputs, outputGrams, brix, celsius, keepsHours, steps } = made
  const came = [
    outputGrams === null ? '' : `came to ${plain(outputGrams, 0)} g`,
    brix === null ? '' : `${plain(brix, 1)} °Bx`,
  ].filter(Boolean)
  const cold = celsius === null ? 'as cold as its ingredients ask for' : `at ${plain(celsius, 1)} °C or colder`
  return {
    name,
    lines: inputs.map((input) => ({
      name: input.name,
      amount: sayAmount(input),
      notes: [
        ...(input.celsius === null ? [] : [`At ${plain(input.celsius, 1)} °C.`]),
        ...(input.isMade ? ['Made in the house: see below or above.'] : []),
      ],
    })),
    steps: steps.map(({ text, minutes }) => (minutes === null ? text : `${text} (${plain(minutes, 1)} min)`)),
    notes: [
      ...(inputs.length === 0 ? ['What goes into it is not written down: ask the café.'] : []),
      ...(came.length > 0 ? [`All of it ${came.join(', ')} at the café; much less or more cooks otherwise.`] : []),
      `Keep it ${cold}${keepsHours === null ? '' : `, and throw it away after ${sayHours(keepsHours)}`}.`,
    ],
  }
}

const sayHours = (hours: number) => (hours % 24 === 0 && hours >= 48 ? `${hours / 24} days` : `${hours} hours`)

function sayAllergens({ contains, mayContain, unread, list }: HomeWarnings): [string, string][] {
  return [
    ['Contains', contains.join(', ') || 'none named on the labels read'],
    ...(mayContain.length > 0 ? [['May contain', mayContain.join(', ')] satisfies [string, string]] : []),
    ...(unread.length > 0
      ? [
          ['Not stated', `for anything else: the label of ${unread.join(', ')} was not read.`] satisfies [
            string,
            string,
          ],
        ]
      : []),
    [
      'Read your own labels',
      `what you buy may say otherwise (${list}). Nothing here promises that it is free from anything.`,
    ],
  ]
}

function sayCautions({ cautions, caffeine }: HomeWarnings): string[] {
  return [...sayCaffeine(caffeine), ...cautions.filter((line) => !line.startsWith('Labels not read'))]
}

/** The upper end is what counts; what is not known may be more. Unknown without any part is a caution of its own already. */
function sayCaffeine(caffeine: HomeWarnings['caffeine']): string[] {
  const range = ({ low, high }: { readonly low: number; readonly high: number }) =>
    Math.round(low) === Math.round(high) ? plain(high, 0) : `${plain(low, 0)} to ${plain(high, 0)}`
  if (caffeine.known && caffeine.high === 0) return ['No caffeine, by what the labels say.']
  if (caffeine.known)
    return caffeine.high < 1
      ? ['Hardly any caffeine; decaffeinated coffee is not quite without.']
      : [`Caffeine: ${range(caffeine)} mg in one glass; count with the higher figure.`]
  if (!caffeine.atLeast) return []
  const { of } = caffeine.atLeast
  return [
    `Caffeine: ${range(caffeine.atLeast)} mg from ${of.join(', ')}; not stated: ${caffeine.missing.join(', ')}, so it may be more.`,
  ]
}
