import 'server-only'
import { stringify } from 'csv-stringify/sync'
import type { ClosedServing } from './closed-servings'
import { resultCups, type AnsweredPanel } from './panel-answers'
import { answeredSets, withApart, withLate, type AnsweredSet } from './answered-sets'

/** The columns of the answers file, each with what it means. The `stats` command reads the file as it is. */
export const choiceColumns = [
  ['panel', 'title of the panel, for the house'],
  ['taster', 'number of the seat; names of tasters are not taken away'],
  ['first', 'letter of the cup that was tasted first'],
  ['second', 'letter of the cup that was tasted second'],
  ['preferred', 'letter of the cup that this taster prefers; empty: no preference, or no answer that counts'],
  [
    'other',
    'the other cup; both cups with a bar between them where there is no preference; empty: no answer that counts',
  ],
  ['not_counted', 'an answer that is kept and in no number: a letter, or none'],
  [
    'why_not',
    'late: after closing; set-apart: its taster had opened the serving list; set-aside: the house had set the seat aside before closing; later-answer: not this person’s first',
  ],
  ['set_aside', 'no, before-closing or after-closing: whether the house has set this seat aside'],
  ['source', 'phone or paper'],
  ['answered_at', 'when the server stored it, ISO 8601, UTC'],
  ['skipped', 'reason given for leaving both cups out'],
] as const

type Column = (typeof choiceColumns)[number][0]

/**
 * One line for each seat that was taken, as the `preference` analysis reads it; what does not count stands in columns of its own.
 *
 * @param later  seats whose answer is a person's later one
 */
export function exportChoice(
  panel: AnsweredPanel & { readonly title: string },
  servings: readonly ClosedServing[],
  later: readonly number[],
): string {
  const cups = resultCups(panel)
  const seats = new Map(servings.map((serving) => [serving.seat.number, serving]))
  const counted = answeredSets(servings, cups)
  const apart = answeredSets(servings.map(withApart), cups)
  const late = answeredSets(servings.map(withLate), cups)
  const lines = counted.map((set, at): Readonly<Record<Column, string | number>> => {
    const aside = seats.get(set.seat)?.aside ?? null
    const why = aside === 'before-closing' ? 'set-aside' : later.includes(set.seat) ? 'later-answer' : null
    const [first = '', second = ''] = set.served
    const left =
      why !== null && set.letters !== null
        ? { set, why }
        : ([
            { set: apart[at], why: 'set-apart' },
            { set: late[at], why: 'late' },
          ].find((one) => one.set && one.set.letters !== null) ?? null)
    const letters = why === null ? set.letters : null
    return {
      panel: panel.title,
      taster: set.seat,
      ...{ first, second },
      preferred: letters?.[0] ?? '',
      other: letters === null ? '' : otherOf(letters, set.served),
      not_counted: left?.set ? (left.set.letters?.[0] ?? 'none') : '',
      why_not: left?.why ?? '',
      set_aside: aside ?? 'no',
      source: set.source,
      answered_at: set.at === null ? '' : new Date(set.at).toISOString(),
      skipped: set.skipReason === null ? '' : set.skipReason || 'no reason given',
    }
  })
  return stringify(lines, {
    header: true,
    escape_formulas: true,
    record_delimiter: 'windows',
    columns: choiceColumns.map(([name]) => name),
  })
}

function otherOf(letters: readonly string[], served: AnsweredSet['served']): string {
  const [preferred] = letters
  return preferred === undefined ? served.toSorted().join('|') : (served.find((letter) => letter !== preferred) ?? '')
}

/** The same numbers in R. */
export const choiceScript = `# Computes the exact two-sided test of one panel of two cups from its answers file.
# Rscript sipwright-panel.R sipwright-scores.csv
file <- commandArgs(trailingOnly = TRUE)[1]
answers <- read.csv(file, encoding = "UTF-8", stringsAsFactors = FALSE)
preferred <- answers$preferred[answers$preferred != ""]
cups <- sort(unique(c(answers$first, answers$second)))
chose <- sum(preferred == cups[1])
test <- binom.test(chose, length(preferred), 0.5)
cat(sprintf("%s preferred by %d of %d: share %.6f, exact 95 %% interval %.6f to %.6f, two-sided p %.6f\\n",
  cups[1], chose, length(preferred), test$estimate, test$conf.int[1], test$conf.int[2], test$p.value))
cat(sprintf("no preference: %d\\n", sum(answers$preferred == "" & answers$other != "")))
`
