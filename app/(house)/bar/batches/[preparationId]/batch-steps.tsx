import { fixed, plain } from '@/lib/base/number-format'
import type { BatchToMake } from '@/lib/tasks/bar/read-bar-batch'
import { localRules, Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'

const grams = (value: number) => (value < 100 ? fixed(value, 1) : plain(value, 0))

const sayHours = (hours: number) => (hours % 24 === 0 ? `${hours / 24} days` : `${hours} h`)

export function BatchCautions({ batch }: { batch: BatchToMake }) {
  return (
    <Notice look="caution">
      {batch.kind === 'syrup' &&
        'Hot syrup sticks and burns: a deep pot, no children near it; on a burn, cool water for twenty minutes. '}
      {batch.keeping ?? `Clean bottle, batch number, date made, discard date. ${localRules}`}
    </Notice>
  )
}

/** What goes in for the mass that is wanted, what was done last time, and what the scale shows when it is ready. */
export function BatchSteps({ batch, pot }: { batch: BatchToMake; pot: number | null }) {
  const { from, inputs, targetGrams } = batch
  if (from === null || targetGrams === null) return null
  return (
    <>
      <Section title="Weigh in" aside={`As batch ${from.number}, which gave ${grams(from.outputGrams)} g`}>
        <ul className="divide-y divide-line">
          {inputs.map(({ name, grams: amount }, place) => (
            <li key={`${place} ${name}`} className="flex justify-between gap-4 py-2">
              <span>{name}</span>
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
          {pot === null ? (
            <>
              The batch weighs <strong>{grams(targetGrams)} g</strong>, without its pot.
            </>
          ) : (
            <>
              Empty pot {grams(pot)} g, batch {grams(targetGrams)} g: stop at{' '}
              <strong>{grams(pot + targetGrams)} g</strong>.
            </>
          )}
        </p>
        <p className="mt-1 text-soft">Heat off, a mat on the scale, no lid. Then bottle, label and cool it.</p>
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
