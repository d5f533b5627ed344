import type { ReactNode } from 'react'
import type { BuildFigures } from '@/lib/drink/trial'
import type { Figure, RangeFigure } from '@/lib/drink/figure'
import { fixed } from '@/lib/base/number-format'
import { sayFigure } from '@/app/ui/figure'
import { MeltPicture } from './melt-picture'
import { Sheet } from './sheet-parts'

/** The figures one decides by, and what the ice makes of them. */
export function DrinkCard({ figures, iced }: { figures: BuildFigures; iced: boolean }) {
  const tenth = figures.dilution.find(({ minutes }) => minutes === 10)?.coffeeSolids
  const { solidsBeforeMelt: poured, temperature } = figures
  return (
    <Sheet title="What one drinks">
      <dl>
        <One words="Mass" figure={figures.totalMass} digits={1} />
        <Sugars figures={figures} />
        <Row words="Caffeine">
          <Caffeine figure={figures.caffeine} />
        </Row>
        <One words="Energy" figure={figures.energy} digits={0} />
        {iced && tenth?.known && poured.known ? (
          <Row words="Coffee solids, poured → 10 min">
            <Big>
              {fixed(poured.value, 2)} → {fixed(tenth.value, 2)}
            </Big>{' '}
            %
          </Row>
        ) : (
          <One words="Coffee solids" figure={poured} digits={2} />
        )}
        {!iced && <One words="Temperature when poured" figure={temperature} digits={1} />}
      </dl>
      {iced && <h3 className="mt-2 mb-1 text-m">As the ice melts</h3>}
      <MeltPicture figures={figures} iced={iced} />
    </Sheet>
  )
}

/** A figure at the right edge, its words before it; not known says what is missing. */
export function Row({ words, tight = false, children }: { words: ReactNode; tight?: boolean; children: ReactNode }) {
  return (
    <div className={`flex items-baseline justify-between gap-x-3 ${tight ? '' : 'flex-wrap'}`}>
      <dt className="text-s text-soft">{words}</dt>
      <dd className={`ms-auto text-end text-s ${tight ? 'shrink-0' : ''}`}>{children}</dd>
    </div>
  )
}

const Big = ({ children }: { children: ReactNode }) => <strong className="text-m font-semibold">{children}</strong>

/** `brief` where what is missing is said just above. */
export function One({
  words,
  figure,
  digits,
  brief = false,
}: {
  words: ReactNode
  figure: Figure
  digits?: number
  brief?: boolean
}) {
  if (!figure.known) return <Row words={words}>{brief ? 'not known' : `not known: ${figure.missing.join('; ')}`}</Row>
  const said = sayFigure(figure, digits)
  const unit = said.indexOf('\u00a0')
  return (
    <Row words={words}>
      <Big>{unit < 0 ? said : said.slice(0, unit)}</Big>
      {unit < 0 ? '' : said.slice(unit)}
    </Row>
  )
}

/** What is known of the sugars is said, where not all of them are: the figure may not get smaller by not knowing. */
function Sugars({ figures: { sugars, sugarSources } }: { figures: BuildFigures }) {
  if (sugars.known || sugarSources.length === 0) return <One words="Sugars" figure={sugars} digits={1} />
  const known = sugarSources.reduce((all, { grams }) => all + grams, 0)
  return (
    <Row words="Sugars">
      at least <Big>{fixed(known, 1)}</Big> g; more is possible: {sugars.missing.join('; ')}
    </Row>
  )
}

function Caffeine({ figure }: { figure: RangeFigure }) {
  if (figure.known) {
    return (
      <>
        <Big>
          {fixed(figure.low, 0)} to {fixed(figure.high, 0)}
        </Big>{' '}
        mg
      </>
    )
  }
  const part = figure.atLeast
  if (!part) return <>not known: {figure.missing.join('; ')}</>
  return (
    <>
      <Big>
        {fixed(part.low, 0)} to {fixed(part.high, 0)}
      </Big>{' '}
      mg from {part.of.join('; ')}; more is possible: {figure.missing.join('; ')}
    </>
  )
}
