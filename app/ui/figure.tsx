import type { ReactNode } from 'react'
import type { Figure, RangeFigure } from '@/lib/drink/figure'
import { coins, currencyDigits, fixed, plain } from '@/lib/base/number-format'

const digitsOf: Readonly<Record<string, number>> = { g: 1, ml: 0, '%': 2, '°C': 1, kcal: 0, mg: 0, min: 0 }

/** One figure with its unit; "not known" says what is missing. It opens to its formula with the numbers in it. */
export function FigureRow({
  words,
  figure,
  digits,
  currency,
  extra,
}: {
  words: ReactNode
  figure: Figure | RangeFigure
  digits?: number
  currency?: string
  extra?: ReactNode
}) {
  const unit = figure.unit === 'currency' ? (currency ?? '') : figure.unit
  const shown = digits ?? digitsOf[unit] ?? currencyDigits(unit) ?? 1
  if (!figure.known) {
    const part = 'atLeast' in figure ? figure.atLeast : undefined
    return (
      <div className="flex flex-wrap justify-between gap-x-4 border-b border-line py-2">
        <span>{words}</span>
        {part && (
          <span className="text-end">
            <strong className="font-semibold">
              {fixed(part.low, shown)} to {fixed(part.high, shown)}
            </strong>{' '}
            {unit} from {part.of.join('; ')}
          </span>
        )}
        <span className="text-soft">
          {part ? 'More is possible, not known' : 'not known'}: {figure.missing.join('; ')}
        </span>
      </div>
    )
  }
  const value =
    'low' in figure ? `${fixed(figure.low, shown)} to ${fixed(figure.high, shown)}` : fixed(figure.value, shown)
  return (
    <details className="border-b border-line">
      <summary className="flex min-h-11 flex-wrap items-center justify-between gap-x-4 py-1">
        <span>{words}</span>
        <span className="text-end whitespace-nowrap">
          <strong className="font-semibold">{value}</strong> {unit}
          {extra}
        </span>
      </summary>
      <div className="pb-3 text-s text-soft">
        <p className="break-words">
          {value} {unit} = {figure.formula}
        </p>
        {figure.assumed.length > 0 && <p>Assumed: {figure.assumed.join('; ')}.</p>}
        {figure.sources.length > 0 && <p>Source: {figure.sources.join('; ')}.</p>}
      </div>
    </details>
  )
}

/** A figure in one word, for a sentence or a table cell. Money has the decimals of its currency, always. */
export function sayFigure(figure: Figure, digits?: number): string {
  if (!figure.known) return 'not known'
  if (currencyDigits(figure.unit) !== null) return `${coins(figure.value, figure.unit)}\u00a0${figure.unit}`
  const unit = figure.unit === 'currency' ? '' : `\u00a0${figure.unit}`
  return `${digits === undefined ? plain(figure.value, digitsOf[figure.unit] ?? 1) : fixed(figure.value, digits)}${unit}`
}
