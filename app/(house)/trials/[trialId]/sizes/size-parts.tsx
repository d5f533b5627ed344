import type { ReactNode } from 'react'
import { coins, fixed, plain } from '@/lib/base/number-format'
import type { ForToday } from '@/lib/drink/for-today'
import type { BuildFigures } from '@/lib/drink/trial'
import type { Size } from '@/lib/tasks/trial/read-sizes'
import { Cautions } from '@/app/ui/cautions'
import { sayTooCoarse } from '../scale/say-scale'
import { FigureRow } from '@/app/ui/figure'
import { Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'

/** One size: what goes in, what it comes to, and what must be said of it, in the words of the sheet. */
export function SizeParts({
  size: { vessel, isOwn, made, menuPrice },
  currency,
  children,
}: {
  size: Size
  currency: string
  children?: ReactNode
}) {
  const aside = isOwn ? 'As on the sheet' : 'Scaled, not tasted'
  if (!made.known) {
    return (
      <Section title={vessel.name} aside={aside}>
        <p className="text-soft">Cannot be said yet: {made.missing.join('; ')}.</p>
        {children}
      </Section>
    )
  }
  const { ml, shares, scale, figures } = made
  return (
    <Section title={vessel.name} aside={aside}>
      <p className="text-s text-soft">
        {plain(ml, 0)} ml as built, {plain(100 * shares.ice, 0)} % ice and {plain(100 * shares.coffee, 0)} % coffee;{' '}
        {plain(vessel.brimMl, 0)} ml to the brim.
      </p>
      <ul className="mt-2 divide-y divide-line border-y border-line">
        {scale.steps.map((step) => (
          <li key={step.key} className="flex justify-between gap-4 py-1">
            <span>
              {step.name}
              {step.brew && (
                <span className="text-soft"> (from {plain(step.brew.dose, step.brew.decimals)} g dry)</span>
              )}
              {step.tooCoarse && <span className="block text-s text-caution">{sayTooCoarse(step.tooCoarse)}</span>}
            </span>
            <span className="text-end">
              <strong className="whitespace-nowrap">
                {step.add === null ? 'not known' : `${fixed(step.add, step.decimals)} g`}
              </strong>
              <span className="text-s whitespace-nowrap text-soft"> ± {fixed(step.tolerance, step.decimals)}</span>
            </span>
          </li>
        ))}
      </ul>
      <SizeFigures figures={figures} />
      <p className="mb-4 flex flex-wrap justify-between gap-x-4 border-b border-line pb-2">
        <span>Menu price, tax included</span>
        {menuPrice === null ? (
          <span className="text-soft">none: not sold in this size</span>
        ) : (
          <span>
            <strong className="font-semibold">{coins(menuPrice, currency)}</strong> {currency}
          </span>
        )}
      </p>
      {children}
      <div className="mt-4">
        <Cautions said={figures.cautions} />
      </div>
    </Section>
  )
}

/** Sizes are scaled from what the sheet says; what a batch of today asks for otherwise stands beside the scale. */
export function SheetDoses({ forToday }: { forToday: ForToday }) {
  if (Object.keys({ ...forToday.corrected, ...forToday.unread }).length === 0) return null
  return (
    <Notice look="caution" word="Doses of the sheet">
      A batch in use today reads otherwise than the sheet means, or its °Bx is not known: the scale and the card correct
      its dose or give none, these sizes are those of the sheet.
    </Notice>
  )
}

function SizeFigures({
  figures: { caffeine, sugars, freeSugars, energy, iceMelted, cost },
}: {
  figures: BuildFigures
}) {
  return (
    <div className="my-3">
      <FigureRow words="Caffeine" figure={caffeine} />
      <FigureRow words="Sugars" figure={sugars} />
      <FigureRow words="Free (added) sugars" figure={freeSugars} />
      <FigureRow words="Energy" figure={energy} />
      <FigureRow words="Ice melted at once" figure={iceMelted} />
      <FigureRow words="Ingredients" figure={cost.ingredients} />
      <FigureRow words="Cost of a glass" figure={cost.perGlass} />
      {cost.netPrice.known && (
        <>
          <FigureRow words="Price net of tax" figure={cost.netPrice} />
          <FigureRow words="Share of cost in the net price" figure={cost.costShare} digits={1} />
          <FigureRow words="Left of each glass (contribution)" figure={cost.contribution} />
        </>
      )}
      <FigureRow words="Menu price for the wanted share" figure={cost.priceForTargetMenu} />
    </div>
  )
}
