import { plain } from '@/lib/base/number-format'
import type { FormulaChange } from '@/lib/drink/formula'
import type { FormulaSheet, FormulaVersion } from '@/lib/tasks/store/read-formula'
import { FigureRow } from '@/app/ui/figure'
import { sayDay } from '@/app/ui/moment'
import { Fold, Section } from '@/app/ui/page-frame'
import { unitWords } from '@/app/ui/unit-words'

const givesWords = {
  target: 'its target',
  brix: 'worked out from its target Brix',
  retention: 'what is kept back taken off',
  measured: 'as its last batch came out',
  sum: 'if nothing is lost',
} as const

/** How it is made: the version that counts open, every earlier one in its fold. */
export function FormulaSection({ sheet, zone, currency }: { sheet: FormulaSheet; zone: string; currency: string }) {
  const { newest, versions, gives, figures } = sheet
  const { row } = newest
  return (
    <Section title="Formula" aside={`Version ${row.version}, ${sayDay(row.createdAt, zone)}`}>
      <FormulaInputs version={newest} />
      <p className="mt-3">
        {gives ? (
          <>
            Gives <strong>{plain(gives.grams, 1)} g</strong>, {givesWords[gives.by]}.
          </>
        ) : (
          'What it gives is not known: set its target mass, or weigh a batch of it.'
        )}
        {row.brixHundredths !== null && ` Cooked to ${plain(row.brixHundredths / 100, 1)} °Bx.`}
        {sayKept(newest)}
      </p>
      <FormulaSteps version={newest} />
      <div className="mt-4 grid gap-3">
        <Fold words="Figures of the formula">
          <FigureRow words="Goes in" figure={figures.into} />
          {figures.syrup && <FigureRow words="Brix at that mass" figure={figures.syrup.brix} digits={1} />}
          <FigureRow words="Cost of a kilogram" figure={figures.costPerKg} currency={currency} />
        </Fold>
        {versions.map((version, at) => (
          <Fold
            key={version.row.id}
            words={`Version ${version.row.version}${at === 0 ? ', the one that counts' : ''}: ${sayDay(version.row.createdAt, zone)}${version.by ? ` by ${version.by}` : ''}`}
          >
            <Changes changes={version.changes} isFirst={version.row.version === 1} />
            {at > 0 && (
              <>
                <FormulaInputs version={version} />
                <p className="mt-2 text-soft">
                  {version.row.targetMg !== null && `Target ${plain(version.row.targetMg / 1000, 1)} g. `}
                  {version.row.brixHundredths !== null && `${plain(version.row.brixHundredths / 100, 1)} °Bx.`}
                  {sayKept(version)}
                </p>
                <FormulaSteps version={version} />
              </>
            )}
          </Fold>
        ))}
      </div>
    </Section>
  )
}

function sayKept({ row }: FormulaVersion): string {
  const { storageDeciC, keepsHours, retentionMilli } = row
  const back = retentionMilli === null ? '' : ` A gram strained out keeps back ${plain(retentionMilli / 1000, 2)} g.`
  const at = storageDeciC === null ? '' : ` at ${plain(storageDeciC / 10, 1)} °C`
  const time = keepsHours === null ? '' : ` for ${keepsHours} h`
  return `${back}${at + time === '' ? '' : ` Kept${at}${time}.`}`
}

function FormulaInputs({ version: { row } }: { version: FormulaVersion }) {
  return (
    <ul className="divide-y divide-line">
      {row.inputs.map((input) => (
        <li key={input.id} className="flex flex-wrap justify-between gap-x-4 py-2">
          <span>
            {input.ingredient?.name ?? input.preparation?.name ?? 'something that is gone'}
            {input.isStrainedOut && <span className="text-soft">, strained out again</span>}
            {input.temperatureDeciC !== null && (
              <span className="text-soft">, at {plain(input.temperatureDeciC / 10, 1)} °C</span>
            )}
          </span>
          <span className="text-end whitespace-nowrap">
            {plain(input.amountMg / 1000, 1)} g
            {input.unit !== 'g' && (
              <span className="block text-s text-soft">
                {input.typed} {unitWords(input.unit)}
              </span>
            )}
          </span>
        </li>
      ))}
    </ul>
  )
}

function FormulaSteps({ version: { steps, row } }: { version: FormulaVersion }) {
  return (
    <>
      {steps.length > 0 && (
        <ol className="mt-3 list-decimal space-y-1 ps-6">
          {steps.map((step) => (
            <li key={step.text}>
              {step.text}
              {step.minutes !== undefined && <span className="text-soft"> ({step.minutes} min)</span>}
            </li>
          ))}
        </ol>
      )}
      {row.note && <p className="mt-3 max-w-prose whitespace-pre-line">{row.note}</p>}
    </>
  )
}

function Changes({ changes, isFirst }: { changes: readonly FormulaChange[]; isFirst: boolean }) {
  if (isFirst) return <p className="text-soft">The first.</p>
  if (changes.length === 0) return <p className="text-soft">As the version before.</p>
  return (
    <ul className="mb-3 list-disc ps-6">
      {changes.map((change) => (
        <li key={JSON.stringify(change)}>{sayChange(change)}</li>
      ))}
    </ul>
  )
}

const figureWords = {
  target: ['Target mass', ' g'],
  brix: ['Target Brix', ' °Bx'],
  retention: ['Kept back per gram', ' g'],
  storage: ['Kept at', ' °C'],
  keeps: ['Kept for', ' h'],
} as const

const fromTo = (before: number | null, after: number | null, unit: string) => {
  const say = (value: number | null) => (value === null ? 'not said' : `${plain(value, 2)}${unit}`)
  return `${say(before)} → ${say(after)}`
}

function sayChange(change: FormulaChange): string {
  switch (change.what) {
    case 'added':
      return `${change.name} is new, ${plain(change.grams, 1)} g`
    case 'taken-out':
      return `${change.name} is gone, it was ${plain(change.grams, 1)} g`
    case 'amount':
      return `${change.name}: ${fromTo(change.before, change.after, ' g')}`
    case 'strained-out':
      return `${change.name} is strained out again`
    case 'stays-in':
      return `${change.name} stays in`
    case 'temperature-in':
      return `${change.name} goes in at: ${fromTo(change.before, change.after, ' °C')}`
    case 'steps':
      return 'Other steps'
    case 'note':
      return 'Another note'
    case 'order':
      return 'Another order'
    default: {
      const [words, unit] = figureWords[change.what]
      return `${words}: ${fromTo(change.before, change.after, unit)}`
    }
  }
}
