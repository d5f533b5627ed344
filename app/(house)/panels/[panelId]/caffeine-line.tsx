import { requireMember } from '@/lib/auth/guard'
import { listed } from '../panel-words'
import { readPanelCaffeine } from '@/lib/tasks/plan/read-panel-caffeine'
import { theWorld } from '@/lib/tasks/world'

const toTen = (mg: number) => Math.max(10, Math.round(mg / 10) * 10)

/** Caffeine of all cups together, as a range, beside the dose that raises no concern. */
export async function CaffeineLine({ panelId }: { panelId: string }) {
  const member = await requireMember('panel:read')
  const caffeine = await readPanelCaffeine(theWorld(), member, panelId)
  if (!caffeine) return null
  if (!caffeine.known) {
    const missing = caffeine.missing.slice(0, 3)
    const more = caffeine.missing.length > 3 ? ` and ${caffeine.missing.length - 3} more` : ''
    const { atLeast } = caffeine
    return (
      <p>
        {atLeast
          ? `One taster drinks at least ${toTen(atLeast.low)} to ${toTen(atLeast.high)} mg of caffeine over all cups; it may be more: `
          : 'Caffeine for one taster is not known: '}
        {listed(missing)}
        {more} {caffeine.missing.length === 1 ? 'is' : 'are'} missing.{' '}
        {atLeast && atLeast.high > atLeast.singleDose && <TooMuch singleDose={atLeast.singleDose} />}
      </p>
    )
  }
  if (caffeine.high === 0) return <p>No caffeine, by what its labels say.</p>
  if (caffeine.high < 1) return <p>Hardly any caffeine; decaffeinated coffee is not quite without.</p>
  return (
    <p>
      One taster drinks about {toTen(caffeine.low)} to {toTen(caffeine.high)} mg of caffeine over all cups.{' '}
      {caffeine.high > caffeine.singleDose ? (
        <TooMuch singleDose={caffeine.singleDose} />
      ) : (
        `Up to ${caffeine.singleDose} mg at once raises no concern for a healthy adult; less for others.`
      )}
    </p>
  )
}

function TooMuch({ singleDose }: { singleDose: number }) {
  return <strong>That may pass {singleDose} mg at once; pour less, fewer cups, or offer to spit.</strong>
}
