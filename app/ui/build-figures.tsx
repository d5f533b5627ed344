import type { BuildFigures } from '@/lib/drink/build'
import { FigureRow } from './figure'
import { Fold } from './page'
import { localRules, Notice } from './notice'
import { AllergenTable } from './allergen-table'

const fitWords: Readonly<Record<BuildFigures['fit'], string>> = {
  fits: 'It fits the vessel.',
  'over-fill-line': 'It passes the fill line.',
  'over-brim': 'It does not fit: it runs over the brim.',
  'not-known': 'Whether it fits is not known yet.',
}

/** Everything computed about a drink. Each figure opens to its working. */
export function BuildFiguresView({
  figures,
  currency,
  vessel,
}: {
  figures: BuildFigures
  currency: string
  vessel: string | null
}) {
  const money = { currency, digits: 2 }
  return (
    <div className="grid gap-5">
      {figures.problems.map((problem) => (
        <Notice key={problem.field + problem.message} look="stop" word="Mend">
          {problem.message}
        </Notice>
      ))}
      <Group title="In the glass">
        <FigureRow words="Mass" figure={figures.totalMass} />
        <FigureRow words="Volume when built" figure={figures.volume} />
        {vessel && (
          <>
            <FigureRow words={`Room to the brim of ${vessel}`} figure={figures.roomToBrim} />
            {figures.roomToFillLine && <FigureRow words="Room to the fill line" figure={figures.roomToFillLine} />}
            <p className={`py-2 ${figures.fit === 'over-brim' ? 'font-semibold text-stop' : ''}`}>
              {fitWords[figures.fit]}
            </p>
          </>
        )}
        {figures.brew && (
          <>
            <FigureRow words="Beverage from the brew" figure={figures.brew.beverage} />
            <FigureRow words="Strength (dissolved solids)" figure={figures.brew.strength} />
            <FigureRow words="Extraction" figure={figures.brew.extraction} digits={1} />
          </>
        )}
        <FigureRow words="Coffee solids before any ice melts" figure={figures.solidsBeforeMelt} />
        <FigureRow words="Coffee solids once settled" figure={figures.solidsAfterMelt} />
        <FigureRow words="Ice melted at once" figure={figures.iceMelted} />
        <FigureRow words="Temperature once settled" figure={figures.temperature} />
        {figures.dilution.map((step) => (
          <FigureRow key={step.minutes} words={`Meltwater after ${step.minutes} minutes`} figure={step.meltwater} />
        ))}
      </Group>
      <Group title="What one drinks">
        <FigureRow words="Sugars" figure={figures.sugars} />
        <FigureRow words="Free (added) sugars" figure={figures.freeSugars} />
        {figures.sugarSources.length > 0 && (
          <p className="py-2 text-s text-soft">
            From {figures.sugarSources.map((source) => `${source.name} ${source.grams.toFixed(1)} g`).join(', ')}.
          </p>
        )}
        <FigureRow words="Share of the WHO limit for free sugars (50 g a day)" figure={figures.shares.who} digits={0} />
        <FigureRow words="Share of the lower WHO aim (25 g a day)" figure={figures.shares.whoLower} digits={0} />
        <FigureRow words="Share of the US daily value (50 g added)" figure={figures.shares.fda} digits={0} />
        <FigureRow words="Sweetness, as grams of sucrose" figure={figures.sweetness} />
        <FigureRow words="Fat" figure={figures.fat} />
        <FigureRow words="Protein" figure={figures.protein} />
        <FigureRow words="Energy" figure={figures.energy} />
        <FigureRow words="Caffeine" figure={figures.caffeine} />
      </Group>
      <Group title="Cost of one glass">
        {figures.lines.map((line) => (
          <FigureRow key={line.key} words={line.name} figure={line.cost} {...money} digits={4} />
        ))}
        <FigureRow words="Ingredients" figure={figures.cost.ingredients} {...money} digits={4} />
        <FigureRow words="Waste" figure={figures.cost.waste} {...money} digits={4} />
        <FigureRow words="Packaging" figure={figures.cost.packaging} {...money} digits={4} />
        <FigureRow words="Cost of a glass" figure={figures.cost.perGlass} {...money} />
        <FigureRow words="Price net of tax" figure={figures.cost.netPrice} {...money} />
        <FigureRow words="Share of cost in the net price" figure={figures.cost.costShare} digits={1} />
        <FigureRow words="Left of each glass (contribution)" figure={figures.cost.contribution} {...money} />
        <FigureRow words="Glasses to break even" figure={figures.cost.breakEven} digits={0} />
        <FigureRow words="Net price for the wanted share" figure={figures.cost.priceForTargetNet} {...money} />
        <FigureRow words="Menu price for the wanted share" figure={figures.cost.priceForTargetMenu} {...money} />
      </Group>
      <Fold words={`Allergens (${figures.allergens.list})`} open>
        <AllergenTable allergens={figures.allergens} />
      </Fold>
      {figures.cautions.length > 0 && (
        <Notice look="caution">
          {figures.cautions.join(' ')} {localRules}
        </Notice>
      )}
    </div>
  )
}

function Group({ title, children }: { title: string; children: React.ReactNode }) {
  return (
    <section>
      <h3 className="border-b-2 border-ink pb-1">{title}</h3>
      {children}
    </section>
  )
}
