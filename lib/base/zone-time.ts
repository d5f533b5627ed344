/** To make one takes longer than to use it a hundred times. */
const readers = new Map<string, Intl.DateTimeFormat>()

function readerOf(zone: string): Intl.DateTimeFormat {
  const made = readers.get(zone)
  if (made) return made
  const one = new Intl.DateTimeFormat('en-CA', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
  })
  readers.set(zone, one)
  return one
}

/** What clocks show in a time zone at a moment, as a form field holds it: "2026-03-14T09:30". */
export function clockIn(at: Date, zone: string): string {
  const parts = readerOf(zone).formatToParts(at)
  const of = (type: string) => parts.find((part) => part.type === type)?.value ?? '00'
  return `${of('year')}-${of('month')}-${of('day')}T${of('hour')}:${of('minute')}`
}

// Intl's own short names change with its version ("Sep", then "Sept"), and with them what stands on paper
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

/** The same as a person reads it: "14 Mar 2026" and "09:30". */
export function dayAndTimeIn(at: Date, zone: string): { readonly day: string; readonly time: string } {
  const clock = clockIn(at, zone)
  const [year, month, day] = clock.slice(0, 10).split('-')
  return { day: `${Number(day)} ${MONTHS[Number(month) - 1]} ${year}`, time: clock.slice(11) }
}

/** Which day it is in a time zone at a moment: "2026-03-14". */
export function dayIn(at: Date, zone: string): string {
  return clockIn(at, zone).slice(0, 10)
}

/** The moment when clocks of a zone show "2026-03-14T09:30". Of an hour that comes twice, the first; null if unreadable. */
export function momentOf(clock: string, zone: string): Date | null {
  if (!/^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2})?$/.test(clock)) return null
  const wanted = Date.parse(`${clock.length === 10 ? `${clock}T12:00` : clock}Z`)
  if (Number.isNaN(wanted)) return null
  const offsetAt = (time: number) =>
    Date.parse(`${clockIn(new Date(time), zone)}Z`) - Math.floor(time / 60_000) * 60_000
  const guess = wanted - offsetAt(wanted - 86_400_000)
  return new Date(wanted - offsetAt(guess) === guess ? guess : wanted - offsetAt(wanted - offsetAt(wanted)))
}
