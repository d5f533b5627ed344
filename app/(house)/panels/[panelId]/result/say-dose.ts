import { plain } from '@/lib/base/number-format'
import type { DoseResult } from '@/lib/tasks/result/read-dose'

/** What liking does over the amounts tried, in a sentence that claims no more than its intervals. */
export function sayDose({ name, cups, answer }: Pick<DoseResult, 'name' | 'cups' | 'answer'>): string {
  const grams = cups.map((cup) => cup.grams)
  const [least, most] = [Math.min(...grams), Math.max(...grams)].map((one) => plain(one, 1))
  const tried = `between ${least} and ${most} g`
  const { shape, optimum, counts } = answer
  if (shape === 'peak' && optimum) {
    const best = `Liking is highest at about ${plain(optimum.dose, 1)} g of ${name}, ${tried} tried`
    if (!optimum.interval) return `${best}; how far off that may be cannot be said from this panel.`
    const [low, high] = optimum.interval.map((one) => plain(one, 1))
    // A parabola through three means fits whatever they are.
    const untested =
      counts.doses === 3 ? ' Of three amounts nobody can tell whether the curve fits; four would say.' : ''
    return `${best}: 95 % interval ${low} to ${high} g.${untested}`
  }
  const none = `No peak in what was tried, ${tried}.`
  if (shape === 'rising') return `${none} The more ${name}, the better it is liked: the best may lie above.`
  if (shape === 'falling') return `${none} The less ${name}, the better it is liked: the best may lie below.`
  if (shape === 'trough') return `${none} The amounts in the middle are liked least.`
  return `${none} Liking is not told to change with ${name}.`
}
