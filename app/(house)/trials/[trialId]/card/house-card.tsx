import type { CardSheet } from '@/lib/tasks/trial/read-card'
import { fixed, plain } from '@/lib/base/number-format'
import { sayDay } from '@/app/ui/moment'
import { QrCode } from '@/app/ui/qr-code'
import { sayLevel } from '@/app/ui/say-level'
import type { CardSize } from '@/app/ui/page-rule'
import { sayBrewing } from '../say-brewing'
import { sayCorrected, sayStepPresses, sayTooCoarse, sayUnread } from '../scale/say-scale'

interface Props {
  readonly card: CardSheet
  readonly size: CardSize
  readonly link: string | null
  readonly printed: string
  readonly cafe: { readonly name: string; readonly timeZone: string }
}

/** The recipe as it hangs beside the bar: black on white, whatever the screen's theme. */
export function HouseCard({ card, size, link, printed, cafe }: Props) {
  const { sheet, adopted } = card
  const { trial } = sheet
  const level = sayLevel(sheet.build)
  const version = adopted?.version ? `House recipe ${adopted.version}` : 'Trial, not a house recipe'
  return (
    <article
      className={`bg-[#fff] text-[#000] print:p-0 ${size === 'receipt' ? 'w-[72mm] p-2 text-[11pt]' : 'max-w-[190mm] p-8'} border border-line print:border-0`}
    >
      <header className={size === 'receipt' ? '' : 'flex items-start justify-between gap-6'}>
        <div>
          <p className="text-[10pt]">{cafe.name}</p>
          <p className="text-[20pt] leading-tight font-bold">{trial.recipe.name}</p>
          <p>
            {version}: trial {trial.number}, {trial.name}
          </p>
          <p className="text-[10pt]">
            {sheet.methodWords}
            {trial.vessel && ` · ${trial.vessel.name}`}
            {adopted && ` · since ${sayDay(adopted.at, cafe.timeZone)}`}
            {adopted &&
              (adopted.panel ? ` · chosen by the panel “${adopted.panel.title}”` : ' · adopted without a panel')}
          </p>
          {level && <p className="font-bold">{level}</p>}
        </div>
        {link && (
          <QrCode
            text={link}
            label="Code to the page of this trial"
            className={size === 'receipt' ? 'mt-2 w-[28mm]' : 'w-[28mm] shrink-0'}
          />
        )}
      </header>
      <ScaleTable card={card} />
      <Steps steps={trial.steps} />
      <Allergens card={card} />
      <div className="mt-3 text-[10pt]">
        {card.otherBatches.map((words) => (
          <p key={words}>{words}</p>
        ))}
        {card.keeping.length > 0 && <p>Keeping: {card.keeping.join('; ')}.</p>}
        <p>{card.otherCautions.join(' ')}</p>
        <p className="mt-2">Printed {printed}.</p>
      </div>
    </article>
  )
}

function ScaleTable({ card: { scale } }: { card: CardSheet }) {
  return (
    <table className="mt-4 w-full break-inside-avoid">
      <thead>
        <tr className="border-b-2 border-[#000] text-[10pt]">
          <th scope="col" className="py-1 text-start">
            Add, in this order
          </th>
          <th scope="col" className="py-1 ps-2 text-end">
            g
          </th>
          <th scope="col" className="py-1 ps-2 text-end">
            scale shows
          </th>
        </tr>
      </thead>
      <tbody>
        <tr className="border-b border-[#999]">
          <td className="py-1" colSpan={2}>
            Empty vessel on the scale: tare
          </td>
          <td className="py-1 ps-2 text-end">0</td>
        </tr>
        {scale.steps.map((step) => (
          <tr key={step.key} className="border-b border-[#999] align-baseline">
            <th scope="row" className="py-1 text-start font-normal">
              {step.name}
              {step.brew && (
                <span className="block text-[10pt]">
                  brewed from {plain(step.brew.dose, step.brew.decimals)} ±{' '}
                  {fixed(step.brew.tolerance, step.brew.decimals)} g dry
                  <span className="block">{sayBrewing(step.brew)}</span>
                </span>
              )}
              {step.presses && <span className="block text-[10pt]">{sayStepPresses(step.presses)}</span>}
              {step.corrected && <span className="block text-[10pt] font-bold">{sayCorrected(step.corrected)}</span>}
              {step.unread && <span className="block text-[10pt] font-bold">{sayUnread(step.unread)}</span>}
              {step.tooCoarse && <span className="block text-[10pt]">{sayTooCoarse(step.tooCoarse)}</span>}
            </th>
            <td className="py-1 ps-2 text-end font-bold whitespace-nowrap">
              {step.add === null ? 'not known' : fixed(step.add, step.decimals)}
              {step.add !== null && (
                <span className="block text-[9pt] font-normal">± {fixed(step.tolerance, step.decimals)}</span>
              )}
            </td>
            <td className="py-1 ps-2 text-end whitespace-nowrap">
              {step.running === null ? '–' : fixed(step.running, 1)}
            </td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr className="border-t-2 border-[#000] font-bold">
          <th scope="row" className="py-1 text-start">
            Check: final mass
          </th>
          <td className="py-1 text-end" colSpan={2}>
            {scale.finalGrams === null
              ? 'not known'
              : `${fixed(scale.finalGrams, scale.decimals)} ± ${fixed(scale.tolerance, scale.decimals)} g`}
          </td>
        </tr>
      </tfoot>
    </table>
  )
}

function Steps({
  steps,
}: {
  steps: readonly { readonly id: string; readonly text: string; readonly seconds: number | null }[]
}) {
  if (steps.length === 0) return null
  return (
    <ol className="mt-3 list-decimal ps-5">
      {steps.map((step) => (
        <li key={step.id}>
          {step.text}
          {step.seconds !== null && ` (${step.seconds} s)`}
        </li>
      ))}
    </ol>
  )
}

function Allergens({ card: { allergens, sheet } }: { card: CardSheet }) {
  return (
    <div className="mt-3 border-2 border-[#000] p-2">
      {allergens.map((words) => (
        <p key={words} className="font-bold">
          {words}
        </p>
      ))}
      <p className="text-[9pt]">{sheet.figures.allergens.list}. Never promise “free from”. Ask before you answer.</p>
    </div>
  )
}
