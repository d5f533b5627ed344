import { fixed, plain } from '@/lib/base/number-format'
import type { RangeFigure } from '@/lib/drink/figure'
import type { BesideTrial, readBeside } from '@/lib/tasks/recipe/read-beside'
import { sayFigure } from '@/app/ui/figure'
import { sayDay } from '@/app/ui/moment'
import { sayLabels } from '@/app/ui/say-labels'
import { sayTime } from '../../../trials/[trialId]/say-brewing'

type Found = NonNullable<Awaited<ReturnType<typeof readBeside>>>
type Brew = BesideTrial['brews'][number]

export interface BesideRow {
  readonly key: string
  readonly words: string
  /** in the order of the trials */
  readonly cells: readonly string[]
}

const NONE = '—'
const unknown = 'not known'

/** What goes in and what comes of it, in the order in which one works. */
export function besideRows({ trials, parts }: Found, zone: string): readonly BesideRow[] {
  const row = (words: string, say: (trial: BesideTrial, place: number) => string): BesideRow => ({
    key: words,
    words,
    cells: trials.map(say),
  })
  const brewed = (words: string, say: (brew: Brew, trial: BesideTrial) => string) =>
    row(words, (trial) =>
      joined(
        trial.brews.map((brew) => say(brew, trial)),
        '; ',
      ),
    )
  return [
    row('Method', ({ method }) => method),
    row('Cost level', ({ level }) => level ?? NONE),
    brewed('Dose, dry', ({ key, dose, name }, trial) => `${grams(dose)} ${name}${atHome(trial, key)}`),
    brewed('Water', ({ water }) => (water === null ? unknown : grams(water))),
    brewed('Water temperature', ({ waterTemperature: at }) => (at === null ? unknown : `${plain(at, 1)} °C`)),
    brewed('Time', ({ seconds }) => (seconds === null ? unknown : sayTime(seconds))),
    brewed('Grind', ({ grind }) => grind ?? unknown),
    brewed('Poured of the brew', ({ gives }) => (gives === null ? unknown : grams(gives))),
    ...parts.map(({ name, amounts }): BesideRow => ({
      key: `part ${name}`,
      words: name,
      cells: trials.map((trial, place) =>
        joined(
          (amounts[place] ?? []).map(
            (one) =>
              `${grams(one.grams)}${one.temperature === null ? '' : ` at ${plain(one.temperature, 1)} °C`}${atHome(trial, one.key)}`,
          ),
          ' + ',
        ),
      ),
    })),
    row('Vessel', ({ vessel }) => vessel ?? NONE),
    row('Volume when built', ({ figures }) => sayFigure(figures.volume, 0)),
    row('Strength of the brew', ({ figures }) => (figures.brew ? sayFigure(figures.brew.strength) : NONE)),
    row('Coffee solids as poured', ({ figures }) => sayFigure(figures.solidsBeforeMelt)),
    row('Sugars', saySugars),
    row('Caffeine', ({ figures }) => sayRange(figures.caffeine)),
    row('Allergens', ({ labels }) => sayLabels(labels).join('; ')),
    row('Cost of a glass', ({ figures: { cost } }) => sayFigure(cost.perGlass)),
    row('Prices of', ({ pricesOf }) => (pricesOf ? sayDay(pricesOf, zone) : 'today')),
  ]
}

const grams = (amount: number) => `${fixed(amount, 1)}\u00a0g`

const joined = (words: readonly string[], by: string) => (words.length === 0 ? NONE : words.join(by))

function atHome({ home }: BesideTrial, key: string): string {
  const words = home.get(key)
  return words === undefined ? '' : ` (${words})`
}

/** What is known of the sugars is said, where not all of them are: the figure may not get smaller by not knowing. */
function saySugars({ figures: { sugars, sugarSources } }: BesideTrial): string {
  if (sugars.known || sugarSources.length === 0) return sayFigure(sugars)
  return `at least ${fixed(
    sugarSources.reduce((all, one) => all + one.grams, 0),
    1,
  )} g; more is possible, not known: ${sugars.missing.join('; ')}`
}

function sayRange(figure: RangeFigure): string {
  if (figure.known) return `${fixed(figure.low, 0)} to ${fixed(figure.high, 0)} mg`
  const part = figure.atLeast
  if (!part) return `${unknown}: ${figure.missing.join('; ')}`
  return `${fixed(part.low, 0)} to ${fixed(part.high, 0)} mg from ${part.of.join('; ')}; more is possible, not known: ${figure.missing.join('; ')}`
}
