import type { Sign } from '@/lib/tasks/pour/read-sign'
import { withToDo } from '@/app/join/cautions-part'
import { QrCode } from '@/app/ui/qr-code'

/** What must be known before one sits down, in the words of the phone’s door, and the way to a seat. */
export function TastingSign({ sign, address }: { sign: Sign; address: string | null }) {
  const { cafe, publicTitle, cautions } = sign
  return (
    <article
      aria-label="Sign"
      className="grid max-w-[190mm] gap-4 border border-edge bg-raised p-6 print:border-0 print:p-0"
    >
      <header className="flex flex-wrap items-start justify-between gap-4">
        <div className="max-w-prose basis-64 grow">
          <p>{cafe}</p>
          <h2 className="text-xxl leading-tight font-bold">{publicTitle}</h2>
          <p className="text-l">
            Taste with us, blind: the cups carry numbers, and what you think of them is what counts.
          </p>
        </div>
        {address !== null && (
          <div className="w-44 max-w-full shrink-0 print:w-[55mm]">
            <QrCode text={address} label="Code to scan: gives the next free seat" className="w-full" />
            <p className="text-s">Scan it on the café’s own network for a seat of your own.</p>
          </div>
        )}
      </header>
      <section>
        <h3 className="text-l font-bold">Before you taste: is this for you?</h3>
        <p>Over all cups together, allergens by the list “{cautions.list}”:</p>
        <ul className="mt-1 list-disc ps-5">
          {withToDo(cautions.said).map(({ words, toDo }) => (
            <li key={words}>
              {words} {toDo !== undefined && <strong>{toDo}</strong>}
            </li>
          ))}
        </ul>
      </section>
      <p className="border-t-4 border-ink pt-2 text-l">
        It is voluntary. You may stop, or spit out, at any time, without a reason.{' '}
        <strong className="font-semibold">Any other allergy, or not sure? Ask who serves before you taste.</strong>
      </p>
    </article>
  )
}
