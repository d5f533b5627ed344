import { create } from 'qrcode'

/** The quiet zone of ISO/IEC 18004: four modules all round. */
const quiet = 4

/** A code to scan, dark on white in either theme: a phone reads nothing else as well. */
export function QrCode({ text, label, className = '' }: { text: string; label: string; className?: string }) {
  const { modules } = create(text, { errorCorrectionLevel: 'M' })
  const dark: string[] = []
  for (let y = 0; y < modules.size; y += 1) {
    for (let x = 0; x < modules.size; x += 1) {
      if (modules.get(x, y)) dark.push(`M${x + quiet} ${y + quiet}h1v1h-1z`)
    }
  }
  const side = modules.size + 2 * quiet
  return (
    <svg
      role="img"
      aria-label={label}
      viewBox={`0 0 ${side} ${side}`}
      shapeRendering="crispEdges"
      className={`aspect-square ${className}`}
    >
      <rect width={side} height={side} fill="#fff" />
      <path d={dark.join('')} fill="#000" />
    </svg>
  )
}
