import type { SeatProgress } from '@/lib/tasks/pour/read-progress'
import { counted } from '../../panel-words'

/** Whether somebody is still tasting, said before it is too late. */
export function sayUnfinished(seats: readonly SeatProgress[]): string {
  const count = (state: SeatProgress['state']) => seats.filter((seat) => seat.state === state).length
  const [finished, tasting, left, barred] = [count('finished'), count('tasting'), count('left'), count('barred')]
  const aside = count('set-aside')
  if (finished + tasting + left + barred + aside === 0) return 'Nobody has tasted anything yet.'
  if (tasting > 0) {
    return `${counted(tasting, 'seat')} ${tasting === 1 ? 'is' : 'are'} still tasting; ${finished} of ${seats.length} have finished.`
  }
  const gone = [
    left > 0 ? `, ${left} left early` : '',
    barred > 0 ? `, ${barred} ${barred === 1 ? 'takes' : 'take'} no more scores` : '',
    aside > 0 ? `, ${aside} ${aside === 1 ? 'is' : 'are'} set aside` : '',
  ].join('')
  return `Nobody is still tasting: ${finished} of ${counted(seats.length, 'seat')} ${finished === 1 ? 'has' : 'have'} finished${gone}.`
}
