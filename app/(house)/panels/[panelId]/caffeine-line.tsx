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
    return (
      <p>
        Caffeine for one taster is not known: {listed(missing)}
        {more} {caffeine.missing.length === 1 ? 'is' : 'are'} missing.
      </p>
    )
  }
  if (caffeine.high < 1) return <p>Hardly any caffeine; decaffeinated coffee is not quite without.</p>
  return (
    <p>
      One taster drinks about {toTen(caffeine.low)} to {toTen(caffeine.high)} mg of caffeine over all cups.{' '}
      {caffeine.high > caffeine.singleDose ? (
        <strong>That may pass {caffeine.singleDose} mg at once; pour less, fewer cups, or offer to spit.</strong>
      ) : (
        `Up to ${caffeine.singleDose} mg at once raises no concern for a healthy adult; less for others.`
      )}
    </p>
  )
}
