import { may, rights, roles } from '@/lib/auth/rights'
import { sayRight } from './say-rights'

/** Who may what, as the one table of rights has it. */
export function RightsTable() {
  return (
    <dl className="grid max-w-3xl gap-2">
      {rights.map((right) => (
        <div key={right} className="grid border-b border-line pb-2 sm:grid-cols-[1fr_16rem] sm:gap-4">
          <dt>{sayRight[right]}</dt>
          <dd className="font-semibold">{roles.filter((role) => may(role, right)).join(', ')}</dd>
        </div>
      ))}
    </dl>
  )
}
