import type { AsideReading } from '@/lib/tasks/result/aside-readings'
import type { PanelResult } from '@/lib/tasks/result/read-result'
import { fixed } from '@/lib/base/number-format'
import { Moment } from '@/app/ui/moment'
import { Fold, Section } from '@/app/ui/page-frame'
import { ScrollTable } from '@/app/ui/scroll-table'
import { TakeBackIn } from '../set-aside-part'

/** Seats that the house has set aside, why and when, and the reading that stands beside the claim. */
export function SeatsAside({
  result,
  zone,
  runs,
}: {
  result: PanelResult
  zone: string
  /** whoever reads this may set a seat aside */
  runs: boolean
}) {
  const { seatsAside } = result
  if (seatsAside.length === 0) return null
  const after = seatsAside.filter(({ when }) => when === 'after-closing').map(({ seat }) => seat)
  return (
    <Section title="Seats set aside">
      <div className="grid gap-4">
        <ul className="grid list-disc gap-1 ps-5">
          {seatsAside.map(({ seat, when, why, by, at }) => (
            <li key={seat} className="max-w-prose break-words">
              Seat {seat}, set aside {sayWhen[when]} by {by}, <Moment at={at} zone={zone} />: “{why}”
            </li>
          ))}
        </ul>
        <Readings readings={result.asideReadings} />
        {runs && <TakeBackIn panelId={result.id} from="result" seats={after} />}
      </div>
    </Section>
  )
}

const sayWhen = {
  'before-closing': 'before closing, when nobody could read a score,',
  'after-closing': 'after the scores were read,',
} as const

/** For who has no business with seats and reasons: that there is another reading, and what it says. */
export function OtherReadings({ readings }: { readings: readonly AsideReading[] }) {
  if (readings.length === 0) return null
  return (
    <Section title="With and without seats set aside">
      <Readings readings={readings} />
    </Section>
  )
}

function Readings({ readings }: { readings: readonly AsideReading[] }) {
  return readings.map((reading) => (
    <div key={reading.which} className="grid gap-2">
      <p className="max-w-prose">
        {sayWhy(reading)} <strong className="font-semibold">{reading.verdict.sentence}</strong>
      </p>
      {reading.claims.length > 0 && (
        <Fold words={`${reading.which === 'with-all' ? 'With' : 'Without'} them, comparison by comparison`}>
          <ScrollTable
            label={
              reading.which === 'with-all'
                ? 'Planned comparisons with every seat'
                : 'Planned comparisons without seats set aside'
            }
            heads={['First', 'Second', 'Difference', 'Joint 95 % interval', 'Scored both']}
          >
            {reading.claims.map(({ first, second, difference, interval, tasters }) => [
              first + second,
              first,
              second,
              fixed(difference, 2),
              interval ? `${fixed(interval[0], 2)} to ${fixed(interval[1], 2)}` : 'none',
              tasters,
            ])}
          </ScrollTable>
        </Fold>
      )}
    </div>
  ))
}

function sayWhy({ which, seats }: AsideReading): string {
  const many = seats > 1
  return which === 'with-all'
    ? `What the panel claims is without ${many ? `the ${seats} seats` : 'the one seat'} set aside before closing. With every seat:`
    : `What the panel claims still counts seats that were set aside after the scores were read: what carries a claim is not chosen after looking. Without ${many ? `any of the ${seats} seats set aside` : 'it'}:`
}
