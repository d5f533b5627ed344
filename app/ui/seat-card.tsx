import { QrCode } from './qr-code'

/** One card to cut out: the seat to be read from across the table, its own code, and the address in letters. */
export function SeatCard({
  number,
  title,
  address,
}: {
  readonly number: number
  readonly title: string
  readonly address: string
}) {
  return (
    <li className="grid h-full break-inside-avoid content-between gap-2 border border-dashed border-edge bg-raised p-4 print:h-[80mm]">
      <div className="flex items-start justify-between gap-3">
        <div>
          <p className="text-s">{title}</p>
          <p className="text-xxl font-bold">Seat {number}</p>
        </div>
        <QrCode text={address} label={`Code to scan for seat ${number}`} className="w-32 shrink-0 print:w-[34mm]" />
      </div>
      <p>Scan this with your phone’s camera, on the café’s own network. The tray with this number is yours.</p>
      <p className="text-s break-all">{address}</p>
    </li>
  )
}
