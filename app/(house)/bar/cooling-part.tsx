import { nanoid } from 'nanoid'
import type { Member } from '@/lib/auth/guard'
import { fixed } from '@/lib/base/number-format'
import { readCoolingOnShelf, type CoolingLog, type ReadingLine } from '@/lib/tasks/bar/read-cooling'
import { theWorld } from '@/lib/tasks/world'
import { ActButton } from '@/app/ui/act-button'
import { ActForm } from '@/app/ui/act-form'
import { TextField } from '@/app/ui/field'
import { sayMoment } from '@/app/ui/moment'
import { localRules, Notice } from '@/app/ui/notice'
import { Section } from '@/app/ui/page-frame'
import { logCoolingAction, strikeCoolingAction } from './cooling-actions'
import { sayCooling } from './say-cooling'

interface Props {
  readonly log: CoolingLog
  readonly zone: string
  /** may write readings down */
  readonly logs: boolean
  /** of which batch, where a page speaks of several */
  readonly of?: string
}

const degrees = (celsius: number) => `${fixed(celsius, 1).replace('-', '−')} °C`

/** How a batch that needs the cold gets there: what was read, and what must be read by when. */
export function CoolingPart({ log: { batchId, cooling, readings }, zone, logs, of }: Props) {
  const { look, word, words } = sayCooling(cooling, zone)
  return (
    <Section title={of === undefined ? 'Cooling' : `Cooling: ${of}`}>
      <div className="grid gap-4">
        <Notice look={look} word={word}>
          {words}
        </Notice>
        {readings.length > 0 && (
          <ul className="max-w-md divide-y divide-line">
            {readings.map((reading) => (
              <Reading key={reading.id} reading={reading} zone={zone} strikes={logs} />
            ))}
          </ul>
        )}
        {logs && (
          <ActForm
            key={readings.length}
            id={`cooling-${batchId}`}
            action={logCoolingAction.bind(null, batchId)}
            submit="Write it down"
            submitLook="plain"
            className="max-w-md"
          >
            <input type="hidden" name="key" value={nanoid()} />
            <div className="grid gap-4 sm:grid-cols-2">
              <TextField name="celsius" label="Thermometer shows" unit="°C" inputMode="decimal" required />
              <TextField name="at" label="Read at" type="datetime-local" help="Empty: now." />
            </div>
          </ActForm>
        )}
        <p className="max-w-prose text-s text-soft">
          From 57 °C to 21 °C within two hours, and to 5 °C within six hours in all; what is made cold of things at room
          temperature, to 5 °C within four (Food Code 3-501.14). Hold the thermometer in the middle. {localRules}
        </p>
      </div>
    </Section>
  )
}

interface OnShelf {
  /** who looks may write readings down */
  readonly member: Member
  readonly preparationId: string
  readonly keptAt: number | null
}

/** The same for the batches of one preparation that are asked about. */
export async function CoolingOnShelf({ member, preparationId, keptAt }: OnShelf) {
  const batches = await readCoolingOnShelf(theWorld(), member, preparationId, keptAt)
  const zone = member.cafe.timeZone
  if (batches.length === 0) return null
  return (
    <div id="cooling" className="grid gap-8">
      {batches.map((log) => (
        <CoolingPart key={log.batchId} log={log} zone={zone} logs of={`batch ${log.number}`} />
      ))}
    </div>
  )
}

function Reading({ reading, zone, strikes }: { reading: ReadingLine; zone: string; strikes: boolean }) {
  const { id, celsius, at, by, isStruck } = reading
  return (
    <li className="flex flex-wrap items-center justify-between gap-x-4 py-1">
      <span>
        {isStruck ? <s className="text-soft">{degrees(celsius)}</s> : <strong>{degrees(celsius)}</strong>}
        <span className="block text-s text-soft">
          {sayMoment(at, zone)}
          {by !== null && `, ${by}`}
          {isStruck && ', struck out'}
        </span>
      </span>
      {strikes && !isStruck && (
        <ActButton look="quiet" words={`Strike out ${degrees(celsius)}`} action={strikeCoolingAction.bind(null, id)} />
      )}
    </li>
  )
}
