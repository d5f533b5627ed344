import type { ReactNode } from 'react'
import { fixed, plain } from '@/lib/base/number-format'
import type { BuildFigures } from '@/lib/drink/trial'
import type { Size } from '@/lib/tasks/trial/read-sizes'
import { Cautions } from '@/app/ui/cautions'
import { FigureRow } from '@/app/ui/figure'
import { Section } from '@/app/ui/page-frame'

/** One size: what goes in, what it comes to, and what must be said of it, in the words of the sheet. */
export function SizeParts({ size: { vessel, isOwn, made }, children }: { size: Size; children?: ReactNode }) {
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
              {step.brew && <span className="text-soft"> (from {plain(step.brew.dose, 1)} g dry)</span>}
            </span>
            <strong className="whitespace-nowrap">{step.add === null ? 'not known' : `${fixed(step.add, 1)} g`}</strong>
          </li>
        ))}
      </ul>
      <SizeFigures figures={figures} />
      {children}
      <Cautions said={figures.cautions} />
    </Section>
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
