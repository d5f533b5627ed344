import { plain } from '@/lib/base/number-format'
import type { BatchSheet } from '@/lib/tasks/store/read-preparation'
import { ActButton } from '@/app/ui/act-button'
import { ActForm } from '@/app/ui/act-form'
import { ButtonLink } from '@/app/ui/button'
import { FigureRow } from '@/app/ui/figure'
import { sayMoment } from '@/app/ui/moment'
import { Problems } from '@/app/ui/problems'
import { localRules, Notice } from '@/app/ui/notice'
import { unitWords } from '@/app/ui/unit-words'
import { archiveBatchAction, formulaFromBatchAction } from '../../../actions'

/** What came of it and how long it keeps, in a sentence. */
export function sayBatch({ row, by, discardAt }: BatchSheet, zone: string): string {
  const out =
    row.outputMg === null ? 'What came out is not weighed yet.' : `${plain(row.outputMg / 1000, 1)} g came out.`
  const made = row.madeAt ? ` Made ${sayMoment(row.madeAt, zone)}${by ? ` by ${by}` : ''}.` : ''
  const discard = discardAt ? ` Discard ${sayMoment(discardAt, zone)}.` : ''
  return `${out}${made}${discard}`
}

export function BatchActs({ sheet: { row, hasFormula } }: { sheet: BatchSheet }) {
  const here = `/store/preparations/${row.preparationId}/batches`
  return (
    <>
      {row.frozenAt ? (
        <ButtonLink href={`${here}/new`}>Make a new batch</ButtonLink>
      ) : (
        <ButtonLink href={`${here}/${row.id}/edit`}>
          {row.outputMg === null ? 'Weigh what came out' : 'Correct it'}
        </ButtonLink>
      )}
      {!hasFormula && (
        <ActForm
          id="take-over"
          action={formulaFromBatchAction.bind(null, row.id)}
          submit="Formula from this batch"
          submitLook="plain"
          refused="Not taken over"
        />
      )}
      <ActButton
        look="quiet"
        words={row.archivedAt ? 'Take up again' : 'Put aside'}
        action={archiveBatchAction.bind(null, row.preparationId, row.id, row.archivedAt === null)}
      />
    </>
  )
}

const crystalWords = {
  'stays-clear': null,
  'near-limit': 'It is close to the limit of what stays dissolved where it is kept: crystals may come.',
  'will-crystallise':
    'It holds more sugar than stays dissolved where it is kept: expect crystals. 60 to 65 °Bx keeps cold without.',
} as const

export function BatchCautions({ sheet, zone }: { sheet: BatchSheet; zone: string }) {
  const crystals = sheet.figures.syrup?.crystals
  const crystalLine = crystals ? crystalWords[crystals] : null
  const cold = sheet.hasMilk ? 'Milk and plant drinks: 5 °C or colder, dated, never standing warm. ' : ''
  return (
    <div className="grid gap-3">
      {sheet.row.frozenAt && <Notice>It was poured in a panel: it stays as it is. Correct it by a new batch.</Notice>}
      <Problems problems={sheet.problems} />
      {crystalLine && <Notice look="caution">{crystalLine}</Notice>}
      {sheet.discardAt === null && (
        <Notice look="caution" word="Date not known">
          Nobody wrote down when it must be gone. Look at the bottle before you use it.
        </Notice>
      )}
      <OpenPackEarlier sheet={sheet} zone={zone} />
      {sheet.overridden.map(({ of, days }) => (
        <Notice key={of} look="caution" word="Kept longer">
          {of === 'house'
            ? `The date on the bottle is later than the house’s own limit of ${plain(days, 1)} days: the date that was typed counts.`
            : `The date on the bottle is later than the ${plain(days, 1)} days that are advised: the house’s date counts.`}
        </Notice>
      ))}
      {sheet.outlived.map(({ name, discardAt }) => (
        <Notice key={name} look="caution" word="Kept longer">
          {name} went in and was to be thrown away by {sayMoment(discardAt, zone)}, before this batch is. It takes the
          earliest date of what is in it.
        </Notice>
      ))}
      <Notice look="caution" word="Keeping">
        {cold}
        {sheet.keeping ?? `Clean bottle, batch number, date made, discard date. ${localRules}`}
      </Notice>
    </div>
  )
}

/** A pack that stood open when it was made is to be gone before its own date says. */
function OpenPackEarlier({ sheet: { row, discardAt, outlived }, zone }: { sheet: BatchSheet; zone: string }) {
  const isOwn = discardAt === null || discardAt.getTime() === row.discardAt?.getTime()
  // a batch in it that goes earlier is named by itself
  if (isOwn || outlived.some((one) => one.discardAt.getTime() === discardAt.getTime())) return null
  return (
    <Notice look="caution" word="An opened pack">
      What stood open when it was made, or is in it, was to be thrown away by {sayMoment(discardAt, zone)}. It takes the
      earliest date of what is in it.
    </Notice>
  )
}

export function BatchInputs({ sheet: { row, preparation, steps } }: { sheet: BatchSheet }) {
  return (
    <>
      <ul className="divide-y divide-line">
        {preparation.inputs.map((line, place) => {
          const typed = row.inputs[place]
          return (
            <li key={line.key} className="flex flex-wrap justify-between gap-x-4 py-2">
              <span>
                {line.name}
                {line.strainedOut && <span className="text-soft">, strained out again</span>}
              </span>
              <span className="text-end whitespace-nowrap">
                {plain(line.targetGrams, 1)} g
                {typed && typed.unit !== 'g' && (
                  <span className="block text-s text-soft">
                    {typed.typed} {unitWords(typed.unit)}
                    {typed.microdensity !== null && ` at ${plain(typed.microdensity / 1_000_000, 3)} g/ml`}
                  </span>
                )}
              </span>
            </li>
          )
        })}
      </ul>
      {steps.length > 0 && (
        <ol className="mt-4 list-decimal space-y-1 ps-6">
          {steps.map((step) => (
            <li key={step.text}>
              {step.text}
              {step.minutes !== undefined && <span className="text-soft"> ({step.minutes} min)</span>}
            </li>
          ))}
        </ol>
      )}
    </>
  )
}

export function BatchFiguresList({ sheet: { figures }, currency }: { sheet: BatchSheet; currency: string }) {
  const { syrup, brew, infusion } = figures
  return (
    <div>
      <FigureRow words="Went in" figure={figures.into} />
      <FigureRow words="Came out" figure={figures.output} />
      <FigureRow words="Lost" figure={figures.lost} />
      <FigureRow words="Density" figure={figures.density} digits={3} />
      {syrup && (
        <>
          <FigureRow words="Brix before" figure={syrup.brixBefore} digits={1} />
          <FigureRow words="Brix" figure={syrup.brix} digits={1} />
          <FigureRow words="Sugar in a gram" figure={syrup.sugarPerGram} digits={3} />
          <FigureRow words="Sugar in a ml" figure={syrup.sugarPerMl} digits={3} />
        </>
      )}
      {infusion && (
        <>
          <FigureRow words="Strained out" figure={infusion.strained} />
          <FigureRow words="Kept back by a gram strained out" figure={infusion.retention} digits={2} />
        </>
      )}
      {brew && (
        <>
          <FigureRow words="Water in per gram of coffee" figure={brew.ratio} digits={2} />
          <FigureRow words="Kept by the grounds" figure={brew.retention} digits={2} />
          <FigureRow words="Beverage" figure={brew.beverage} />
          <FigureRow words="Strength (dissolved solids, TDS)" figure={brew.strength} digits={2} />
          <FigureRow words="Extraction yield" figure={brew.extraction} digits={1} />
        </>
      )}
      <FigureRow words="Cost of a kilogram" figure={figures.costPerKg} currency={currency} />
    </div>
  )
}
