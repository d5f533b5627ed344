import { tz } from '@date-fns/tz'
import { format } from 'date-fns'

/** A day and time in the café's own time zone, the same on server and phone. */
export function sayMoment(at: Date, zone: string): string {
  return format(at, 'd MMM yyyy, HH:mm', { in: tz(zone) })
}

export function sayDay(at: Date, zone: string): string {
  return format(at, 'd MMM yyyy', { in: tz(zone) })
}

/** "18:05" */
export function sayTime(at: Date, zone: string): string {
  return format(at, 'HH:mm', { in: tz(zone) })
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
