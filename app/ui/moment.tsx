import { dayAndTimeIn } from '@/lib/base/zone-time'

/** A day and time in the café's own time zone, the same on server and phone: "14 Mar 2026, 09:30". */
export function sayMoment(at: Date, zone: string): string {
  const { day, time } = dayAndTimeIn(at, zone)
  return `${day}, ${time}`
}

/** "14 Mar 2026" */
export function sayDay(at: Date, zone: string): string {
  return dayAndTimeIn(at, zone).day
}

/** "18:05" */
export function sayTime(at: Date, zone: string): string {
  return dayAndTimeIn(at, zone).time
}

/** A day of the café's calendar, "2026-11-26". */
export function sayCalendarDay(day: string): string {
  return sayDay(new Date(`${day}T00:00:00Z`), 'UTC')
}

export function Moment({
  at,
  zone,
  day = false,
  className,
}: {
  at: Date
  zone: string
  day?: boolean
  className?: string
}) {
  return (
    <time dateTime={at.toISOString()} className={className}>
      {day ? sayDay(at, zone) : sayMoment(at, zone)}
    </time>
  )
}
