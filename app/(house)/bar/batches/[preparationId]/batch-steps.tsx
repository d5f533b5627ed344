import { fixed, plain } from '@/lib/base/number-format'
import type { BatchOrigin, BatchToMake } from '@/lib/tasks/bar/read-bar-batch'
import { localRules, Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'
import { HOT_LIQUID, HOT_SYRUP } from '../../../store/preparations/hot-cautions'

const grams = (value: number) => (value < 100 ? fixed(value, 1) : plain(value, 0))

const sayHours = (hours: number) => (hours % 24 === 0 && hours >= 48 ? `${hours / 24} days` : `${hours} h`)

/** Where it is written down, begun as the page shows it. */
export const recordHref = (preparationId: string, { from, targetGrams }: BatchToMake) =>
  `/bar/batches/${preparationId}/record?from=${from?.by === 'formula' ? 'formula' : 'last'}${targetGrams === null ? '' : `&grams=${targetGrams}`}`

export function BatchCautions({ batch }: { batch: BatchToMake }) {
  return (
    <Notice look="caution">
      {batch.kind === 'syrup' && `${HOT_SYRUP} `}
      {batch.kind === 'infusion' && `${HOT_LIQUID} `}
      {batch.keeping ?? `Clean bottle, batch number, date made, discard date. ${localRules}`}
    </Notice>
  )
}

const sayOrigin = ({ by, number, outputGrams }: BatchOrigin) =>
  by === 'formula'
    ? `By formula version ${number}${outputGrams === null ? '' : `, which gives ${grams(outputGrams)} g`}`
    : `As batch ${number}${outputGrams === null ? '' : `, which gave ${grams(outputGrams)} g`}`

/** What goes in for the mass that is wanted, what is done, and what the scale shows when it is ready. */
export function BatchSteps({ batch, pot }: { batch: BatchToMake; pot: number | null }) {
  const { from, inputs, targetGrams } = batch
  if (from === null) return null
  return (
    <>
      {targetGrams === null && (
        <Notice look="caution" word="Not scaled">
          Nobody knows yet what this formula gives, so no other mass is worked out: these are its own amounts. Set its
          target mass, or weigh what comes out once.
        </Notice>
      )}
      <Section title="Weigh in" aside={sayOrigin(from)}>
        <ul className="divide-y divide-line">
          {inputs.map(({ name, grams: amount, isStrainedOut, lacking, pastBatch, takeBatch }, place) => (
            <li key={`${place} ${name}`} className="flex justify-between gap-4 py-2">
              <span>
                {name}
                {isStrainedOut && <span className="text-soft">, strained out again</span>}
                {lacking && (
                  <span className="font-semibold text-caution"> No batch of it is in date: make one first.</span>
                )}
                {pastBatch !== null && (
                  <span className="block text-s font-semibold text-caution">
                    Batch {pastBatch} went in then and is past its date: never use it.
                    {takeBatch !== null && ` Take batch ${takeBatch}.`}
                  </span>
                )}
              </span>
              <strong className="whitespace-nowrap">{grams(amount)} g</strong>
            </li>
          ))}
        </ul>
      </Section>
      {from.steps.length > 0 && (
        <Section title="Steps">
          <ol className="list-decimal space-y-1 ps-6">
            {from.steps.map((step) => (
              <li key={step.text}>
                {step.text}
                {step.minutes !== undefined && <span className="text-soft"> ({step.minutes} min)</span>}
              </li>
            ))}
          </ol>
        </Section>
      )}
      <Section title="Ready when">
        <p className="text-l">
          {isStrained(batch) ? <Strained grams={targetGrams} /> : <StopAt grams={targetGrams} pot={pot} />}
          {batch.brix !== null && ` It reads ${plain(batch.brix, 1)} °Bx.`}
        </p>
        <p className="mt-1 text-soft">
          {batch.kind === 'syrup' && 'Heat off, a mat on the scale, no lid. '}Then bottle, label and cool it.
        </p>
        {batch.storageCelsius !== null && (
          <p className="mt-1 text-soft">
            It is kept at {plain(batch.storageCelsius, 1)} °C
            {batch.keepsHours ? `, for ${sayHours(batch.keepsHours)}` : ''}.
          </p>
        )}
      </Section>
    </>
  )
}

/** What stays behind in the pot is not in its mass: nobody can stop at a weight there. */
const isStrained = ({ kind, inputs }: Pick<BatchToMake, 'kind' | 'inputs'>) =>
  kind.endsWith('brew') || inputs.some((input) => input.isStrainedOut)

function Strained({ grams: target }: { grams: number | null }) {
  if (target === null) return 'Strain it, weigh what comes out, without its pot, and record it.'
  return (
    <>
      Strain it: about <strong>{grams(target)} g</strong> come out, without what stays behind. Weigh and record it.
    </>
  )
}

/** What the scale shows when it is ready. */
function StopAt({ grams: target, pot }: { grams: number | null; pot: number | null }) {
  if (target === null) return 'Weigh what comes out, without its pot, and record it.'
  if (pot === null)
    return (
      <>
        The batch weighs <strong>{grams(target)} g</strong>, without its pot.
      </>
    )
  return (
    <>
      Empty pot {grams(pot)} g, batch {grams(target)} g: stop at <strong>{grams(pot + target)} g</strong>.
    </>
  )
}
