import type { ReactNode } from 'react'
import type { BuildFigures } from '@/lib/drink/trial'
import type { Figure, RangeFigure } from '@/lib/drink/figure'
import { AllergenTable } from './allergen-table'
import { Cautions } from './cautions'
import { FigureRow } from './figure'
import { Problems } from './problems'
import { Fold } from './page-frame'

const fitWords: Readonly<Record<BuildFigures['fit'], string>> = {
  fits: 'It fits the vessel.',
  'over-fill-line': 'It passes the fill line.',
  'over-brim': 'It does not fit: it runs over the brim.',
  'not-known': 'Whether it fits is not known yet.',
}

interface Row {
  readonly words: string
  readonly figure: Figure | RangeFigure
  readonly digits?: number
}

interface Shown {
  readonly figures: BuildFigures
  readonly currency: string
  readonly vessel: string | null
  /** ice goes in: without any nothing melts, and nothing is listed of it */
  readonly iced: boolean
  /** lines that the figures do not count: every total says so */
  readonly without?: readonly number[]
}

/** Everything computed about a drink, with what must be mended before and what to be careful of after. */
export function BuildFiguresView(shown: Shown) {
  const { figures } = shown
  return (
    <div className="grid items-start gap-6">
      <Problems problems={figures.problems} />
      <FigureGroups {...shown} />
      <Fold words={`Allergens (${figures.allergens.list})`} open>
        <AllergenTable allergens={figures.allergens} />
      </Fold>
      <Cautions said={figures.cautions} />
    </div>
  )
}

/** The figures of a drink. Each opens to its working; what is missing is said once per group. */
export function FigureGroups({ figures, currency, vessel, iced, without = [] }: Shown) {
  const less = without.length === 0 ? '' : `, without line ${without.join(', ')}`
  return (
    <div className="grid items-start gap-6">
      <Group title={`In the glass${less}`} rows={glassRows(figures, vessel, iced)} currency={currency}>
        {vessel && (
          <p className={`py-2 ${figures.fit === 'over-brim' ? 'font-semibold text-stop' : ''}`}>
            {fitWords[figures.fit]}
          </p>
        )}
      </Group>
      <Group title={`What one drinks${less}`} rows={intakeRows(figures)} currency={currency}>
        {figures.sugarSources.length > 0 && (
          <p className="py-2 text-s text-soft">
            Sugars from {figures.sugarSources.map((source) => `${source.name} ${source.grams.toFixed(1)} g`).join(', ')}
            .
          </p>
        )}
      </Group>
      <Group title={`Cost of one glass${less}`} rows={costRows(figures)} currency={currency} />
    </div>
  )
}

/** How many figures there are to open. */
export function figureCount(figures: BuildFigures, iced: boolean): number {
  return [...glassRows(figures, '', iced), ...intakeRows(figures), ...costRows(figures)].filter(
    ({ figure }) => figure.known,
  ).length
}

function glassRows(figures: BuildFigures, vessel: string | null, iced: boolean): Row[] {
  return [
    { words: 'Mass', figure: figures.totalMass },
    { words: 'Volume when built', figure: figures.volume },
    ...(vessel ? [{ words: `Room to the brim of ${vessel}`, figure: figures.roomToBrim }] : []),
    ...(vessel && figures.roomToFillLine ? [{ words: 'Room to the fill line', figure: figures.roomToFillLine }] : []),
    ...(figures.brew
      ? [
          { words: 'Beverage from the brew', figure: figures.brew.beverage },
          { words: 'Strength (dissolved solids, TDS)', figure: figures.brew.strength },
          { words: 'Extraction yield', figure: figures.brew.extraction, digits: 1 },
        ]
      : []),
    ...(iced ? meltRows(figures) : pouredRows(figures)),
  ]
}

const pouredRows = ({ solidsBeforeMelt, temperature }: BuildFigures): Row[] => [
  { words: 'Coffee solids', figure: solidsBeforeMelt },
  { words: 'Temperature when poured', figure: temperature },
]

function meltRows(figures: BuildFigures): Row[] {
  return [
    { words: 'Coffee solids before any ice melts', figure: figures.solidsBeforeMelt },
    { words: 'Coffee solids after the ice has cooled it', figure: figures.solidsAfterMelt },
    { words: 'Ice melted at once', figure: figures.iceMelted },
    { words: 'Temperature after the ice has cooled it', figure: figures.temperature },
    ...figures.dilution.flatMap((step) => [
      { words: `Meltwater after ${step.minutes} minutes`, figure: step.meltwater },
      { words: `Coffee solids after ${step.minutes} minutes`, figure: step.coffeeSolids },
    ]),
  ]
}

function intakeRows(figures: BuildFigures): Row[] {
  return [
    { words: 'Sugars', figure: figures.sugars },
    { words: 'Free (added) sugars', figure: figures.freeSugars },
    { words: 'Share of the WHO limit for free sugars (50 g a day)', figure: figures.shares.who, digits: 0 },
    { words: 'Share of the lower WHO aim (25 g a day)', figure: figures.shares.whoLower, digits: 0 },
    { words: 'Share of the US daily value (50 g added)', figure: figures.shares.fda, digits: 0 },
    { words: 'Sweetness, as grams of sucrose', figure: figures.sweetness },
    { words: 'Fat', figure: figures.fat },
    { words: 'Protein', figure: figures.protein },
    { words: 'Energy', figure: figures.energy },
    { words: 'Caffeine', figure: figures.caffeine },
  ]
}

function costRows({ lines, cost }: BuildFigures): Row[] {
  return [
    ...lines.map((line) => ({ words: line.name, figure: line.cost })),
    { words: 'Ingredients', figure: cost.ingredients },
    { words: 'Waste, added to ingredients', figure: cost.waste },
    ...(cost.packaging.known && cost.packaging.value === 0 ? [] : [{ words: 'Packaging', figure: cost.packaging }]),
    { words: 'Cost of a glass', figure: cost.perGlass },
    { words: 'Price net of tax', figure: cost.netPrice },
    { words: 'Share of cost in the net price', figure: cost.costShare, digits: 1 },
    { words: 'Left of each glass (contribution)', figure: cost.contribution },
    { words: 'Glasses to break even', figure: cost.breakEven, digits: 0 },
    { words: 'Net price for the wanted share', figure: cost.priceForTargetNet },
    { words: 'Menu price for the wanted share', figure: cost.priceForTargetMenu },
  ]
}

function Group({
  title,
  rows,
  currency,
  children,
}: {
  title: string
  rows: readonly Row[]
  currency: string
  children?: ReactNode
}) {
  // what is partly known says itself what is missing of it
  const isShown = ({ figure }: Row) => figure.known || ('atLeast' in figure && figure.atLeast !== undefined)
  const unknown = rows.filter((row) => !isShown(row))
  const missing = [...new Set(unknown.flatMap((row) => (row.figure.known ? [] : row.figure.missing)))]
  return (
    <section>
      <h3 className="border-b-2 border-ink pb-1">{title}</h3>
      {rows.filter(isShown).map((row) => (
        <FigureRow key={row.words} {...row} currency={currency} />
      ))}
      {children}
      {unknown.length > 0 && (
        <p className="py-2 text-s text-soft">
          Not known yet: {unknown.map((row) => row.words.toLowerCase()).join('; ')}. Missing: {missing.join('; ')}.
        </p>
      )}
    </section>
  )
}
