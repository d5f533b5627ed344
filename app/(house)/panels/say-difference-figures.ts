import { fixed } from '@/lib/base/number-format'
import { sayRefused } from '@/lib/forms/difference-figures-form'
import type { TypedFigures } from '@/lib/forms/plan-figures-form'
import type { DifferenceFigures } from '@/lib/tasks/plan/difference-figures'
import { methodNames, methodWords, sayWhyMethod } from './say-difference'
import type { SaidFigures, SaidRehearsal } from './say-figures'

const notYet = 'Say the share and the answers from each taster, and it is reckoned here.'

/** What a plan comes to that asks whether two can be told apart, in words. */
export function sayDifferenceFigures(
  figures: DifferenceFigures | null,
  typed: Pick<TypedFigures, 'cups' | 'oddProtocol' | 'oddAim' | 'oddAsks' | 'oddEach'>,
): SaidFigures {
  const { cups, oddProtocol } = typed
  const two = cups === 2 ? [] : ['Choose two cups: this panel is of two.']
  if (!figures) return { lines: [...two, sayRefused(typed) ?? notYet], askRehearsal: false }
  const { design, perTasterMl, perCupMl, tooMany } = figures
  return {
    lines: [
      ...two,
      `Method${oddProtocol === null ? ' proposed' : ''}: ${methodNames[design.protocol]}, ${methodWords[design.protocol]} ${sayWhyMethod(design)}`,
      sayNeeded(figures),
      ...sayWithSeats(figures),
      ...(tooMany ? [`${figures.cups} cups for one taster are too many: ask for fewer answers.`] : []),
      ...(perTasterMl !== null ? [`One taster gets ${figures.cups} cups, ${fixed(perTasterMl, 0)} ml.`] : []),
      ...(perCupMl !== null ? [`Make up to ${fixed(perCupMl, 0)} ml of each, spills and spares included.`] : []),
      ...(design.each > 1 && design.aim === 'differ'
        ? ['Reckoned for tasters who can tell each time, while the others guess each time.']
        : []),
    ],
    askRehearsal: false,
  }
}

function sayNeeded({ design: { aim, share }, needed }: DifferenceFigures): string {
  if (needed === null) return `More than 400 tasters would be needed to find it if ${share} in a hundred can tell.`
  return aim === 'alike'
    ? `About ${needed.n} tasters show that fewer than ${share} in a hundred can tell, four times out of five, if nobody can.`
    : `About ${needed.n} tasters find it if ${share} in a hundred can really tell, four times out of five.`
}

function sayWithSeats({ design: { aim }, withSeats }: DifferenceFigures): string[] {
  if (withSeats === null) return []
  const { n, answers, critical, power } = withSeats
  const seats = `With ${n} ${n === 1 ? 'seat' : 'seats'}`
  if (critical === null)
    return [`${seats} no count can ${aim === 'alike' ? 'show that few can tell' : 'show a difference'}.`]
  return [
    `${seats} the chance is ${fixed(100 * power, 0)} %: it takes ${aim === 'alike' ? 'at most' : 'at least'} ${critical} right of ${answers}.`,
  ]
}

/** The plan as a hundred panels: the exact test gives the shares, so that nothing has to be played. */
export function sayDifferenceRehearsal(figures: DifferenceFigures | null): SaidRehearsal {
  if (!figures?.withSeats)
    return { lines: ['Say what is asked, the seats and the share first.'], hundred: null, figures: null }
  const { design, withSeats, byLuck } = figures
  const found = Math.round(100 * withSeats.power)
  const hundred = { found, cannotTell: 100 - found, wrong: 0 }
  const here = 'of 100 panels like this'
  return {
    lines: [
      design.aim === 'alike'
        ? `If nobody can tell: ${here} about ${found} show that few can, ${hundred.cannotTell} cannot say so.`
        : `If ${design.share} in a hundred can really tell: ${here} about ${found} find it, ${hundred.cannotTell} do not.`,
      design.aim === 'alike'
        ? `If ${design.share} in a hundred can: ${here} at most 5 say, wrongly, that few can.`
        : `If nobody can: ${here} about ${fixed(100 * (byLuck ?? 0), 0)} say, wrongly, that they can.`,
      'By the exact test itself, not played: with two cups every outcome can be counted.',
    ],
    hundred,
    figures: null,
  }
}
