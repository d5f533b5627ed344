import 'server-only'
import { stringify } from 'csv-stringify/sync'
import type { DifferenceDesign } from '@/lib/panel/kinds/difference'
import { guessingShare, hasDirection } from '@/lib/stats/difference/protocol'
import { answeredSets, withApart, withLate, type AnsweredSet } from './answered-sets'
import { inHeadline, type ClosedServing } from './closed-servings'
import { countedTasters, isRight } from './difference-answer'
import { planned, resultCups, type AnsweredPanel } from './panel-answers'

/** The columns of the answers file, each with what it means. The `stats` command reads the file as it is. */
export const differenceColumns = [
  ['panel', 'title of the panel, for the house'],
  ['taster', 'number of the seat; names of tasters are not taken away'],
  ['set', 'number of the set at this seat, 1 was tasted first'],
  ['method', 'triangle, duo-trio, two-afc, three-afc or tetrad'],
  ['served', 'letters of the cups in the order of tasting; of a duo-trio the first is the reference'],
  ['answered', 'letters that were named: of a tetrad the two that were said to be the same'],
  ['correct', '1 right, 0 wrong; empty: no answer that counts'],
  ['not_counted', 'an answer that is kept and in no number: letters'],
  [
    'why_not',
    'late: after closing; set-apart: its taster had opened the serving list; set-aside: the house had set the seat aside before closing; later-answer: not this person’s first; incomplete: fewer answers than planned',
  ],
  ['set_aside', 'no, before-closing or after-closing: whether the house has set this seat aside'],
  ['source', 'phone or paper'],
  ['answered_at', 'when the server stored it, ISO 8601, UTC'],
  ['skipped', 'reason given for leaving the set out'],
] as const

type Column = (typeof differenceColumns)[number][0]

/**
 * One line for each set of a seat that was taken, as the `difference` analysis reads it; what does not count stands in columns of
 * its own.
 *
 * @param later  seats whose answers are a person's later ones
 */
export function exportDifference(
  panel: AnsweredPanel & { readonly title: string },
  design: DifferenceDesign,
  servings: readonly ClosedServing[],
  later: readonly number[],
): string {
  const cups = resultCups(panel)
  const more = planned(panel, cups).pair[0] ?? cups[0]?.letter ?? ''
  const asides = new Map(servings.map(({ seat, aside }) => [seat.number, aside]))
  const counted = countedTasters(design, answeredSets(inHeadline(servings), cups), later, more)
  const [apart, late] = [answeredSets(servings.map(withApart), cups), answeredSets(servings.map(withLate), cups)]
  const whyNot = (seat: number) => {
    if (asides.get(seat) === 'before-closing') return 'set-aside'
    if (later.includes(seat)) return 'later-answer'
    return counted.incomplete.includes(seat) ? 'incomplete' : null
  }
  const lines = answeredSets(servings, cups).map((set, at): Readonly<Record<Column, string | number>> => {
    const why = whyNot(set.seat)
    const counts = why === null && set.letters !== null
    const left = leftOut(set, why, apart[at], late[at])
    return {
      panel: panel.title,
      taster: set.seat,
      set: set.number,
      method: design.protocol,
      served: set.served.join(' '),
      answered: counts ? (set.letters?.join(' ') ?? '') : '',
      correct: counts ? Number(isRight(design.protocol, set.served, set.letters ?? [], more)) : '',
      not_counted: left?.letters.join(' ') ?? '',
      why_not: left?.why ?? '',
      set_aside: asides.get(set.seat) ?? 'no',
      source: set.source,
      answered_at: set.at === null ? '' : new Date(set.at).toISOString(),
      skipped: set.skipReason === null ? '' : set.skipReason || 'no reason given',
    }
  })
  return stringify(lines, {
    header: true,
    escape_formulas: true,
    record_delimiter: 'windows',
    columns: differenceColumns.map(([name]) => name),
  })
}

/** What is kept of a set and in no number, with why. */
function leftOut(set: AnsweredSet, why: string | null, apart: AnsweredSet | undefined, late: AnsweredSet | undefined) {
  if (set.letters !== null) return why === null ? null : { letters: set.letters, why }
  if (apart?.letters) return { letters: apart.letters, why: 'set-apart' }
  return late?.letters ? { letters: late.letters, why: 'late' } : null
}

/** The words that make the `stats` command give the page's numbers from its answers file. */
export function differenceCommand({ aim, protocol, share }: DifferenceDesign): string {
  const limit = aim === 'alike' ? ` --limit ${share / 100}` : ''
  return `difference sipwright-scores.csv --protocol ${protocol}${limit}`
}

/** The same numbers in R. */
export function differenceScript({ aim, protocol, share }: DifferenceDesign): string {
  const guess = guessingShare(protocol) === 0.5 ? '1 / 2' : '1 / 3'
  const alike = `bound <- ${share / 100}
cat(sprintf("fewer than %g can tell: p %.6f, exact 95 %% upper limit %.6f\\n", bound,
  pbinom(right, n, guess + (1 - guess) * bound), max(0, telling(if (right == n) 1 else qbeta(0.95, right + 1, n - right)))))
`
  return `# Computes the exact test of one panel that asked whether two cups can be told apart (${protocol}), from its answers file.
# Rscript sipwright-panel.R sipwright-scores.csv
file <- commandArgs(trailingOnly = TRUE)[1]
answers <- read.csv(file, encoding = "UTF-8", stringsAsFactors = FALSE)
answers <- answers[!is.na(answers$correct), ]
guess <- ${guess}
right <- sum(answers$correct)
n <- nrow(answers)
telling <- function(share) (share - guess) / (1 - guess)
cut <- function(share) ${hasDirection(protocol) ? 'share' : 'pmax(0, share)'}
cat(sprintf("%d right of %d, one-sided exact p %.6f\\n", right, n,
  binom.test(right, n, guess, alternative = "greater")$p.value))
each <- table(answers$taster)
if (all(each == 1)) {
  range <- cut(telling(binom.test(right, n)$conf.int))
} else {
  shares <- telling(tapply(answers$correct, answers$taster, mean))
  range <- if (length(shares) > 1 && sd(shares) > 0) cut(t.test(shares)$conf.int) else c(NA, NA)
}
cat(sprintf("share who can tell %.6f, 95 %% interval %.6f to %.6f\\n", cut(telling(right / n)), range[1], range[2]))
${aim === 'alike' ? alike : ''}`
}
