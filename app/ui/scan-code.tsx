import { CopyText } from './copy-text'
import { QrCode } from './qr-code'

/** A code to scan, with its address in letters beneath for who has to type it or send it. */
export function ScanCode({
  address,
  words,
  size = 'w-56',
}: {
  readonly address: string
  readonly words: string
  readonly size?: string
}) {
  return (
    <figure className={`${size} max-w-full`}>
      <QrCode text={address} label={`Code to scan: ${words}`} className="w-full rounded border border-line" />
      <figcaption className="mt-2 text-s">
        <CopyText text={address} what="the address" />
      </figcaption>
    </figure>
  )
}
