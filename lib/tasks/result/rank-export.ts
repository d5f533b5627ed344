import 'server-only'
import { stringify } from 'csv-stringify/sync'
import type { ClosedServing } from './closed-servings'
import { resultCups, type AnsweredPanel } from './panel-answers'
import { answeredSets, withApart, withLate } from './answered-sets'

/** The columns of the orders file, each with what it means. The `stats` command reads the file as it is. */
export const rankColumns = [
  ['panel', 'title of the panel, for the house'],
  ['taster', 'number of the seat; names of tasters are not taken away'],
  ['position', 'place in this seat’s order of tasting, 1 was tasted first'],
  ['code', 'the three digits on this serving'],
  ['cup', 'letter of the trial in this panel, as on the result page'],
  ['trial', 'number of the trial in its recipe'],
  ['trial_name', 'name of the trial'],
  ['house_recipe', 'yes if the trial was the house recipe when the panel opened'],
  ['rank', 'place in this taster’s order of liking, 1 is liked best; empty: no order that counts'],
  ['not_counted', 'a place in an order that is kept and in no number'],
  [
    'why_not',
    'late: after closing; set-apart: its taster had opened the serving list; set-aside: the house had set the seat aside before closing; later-answer: not this person’s first',
  ],
  ['set_aside', 'no, before-closing or after-closing: whether the house has set this seat aside'],
  ['source', 'phone or paper'],
  ['answered_at', 'when the server stored it, ISO 8601, UTC'],
  ['skipped', 'reason given for leaving the cups out'],
] as const

type Column = (typeof rankColumns)[number][0]

/**
 * One line for each cup of each seat that was taken, as the `ranking` analysis reads it; what does not count stands in columns of
 * its own.
 *
 * @param later  seats whose order is a person's later one
 */
export function exportRank(
  panel: AnsweredPanel & { readonly title: string },
  servings: readonly ClosedServing[],
  later: readonly number[],
): string {
  const cups = resultCups(panel)
  const counted = answeredSets(servings, cups)
  const apart = answeredSets(servings.map(withApart), cups)
  const late = answeredSets(servings.map(withLate), cups)
  const lines = counted.flatMap((set, at) => {
    const own = servings.filter(({ seat }) => seat.number === set.seat)
    const aside = own[0]?.aside ?? null
    const why = aside === 'before-closing' ? 'set-aside' : later.includes(set.seat) ? 'later-answer' : null
    const left =
      why !== null && set.letters !== null
        ? { letters: set.letters, why }
        : [
            { letters: apart[at]?.letters ?? null, why: 'set-apart' },
            { letters: late[at]?.letters ?? null, why: 'late' },
          ].find(({ letters }) => letters !== null)
    const place = (letters: readonly string[] | null | undefined, letter: string) =>
      letters?.includes(letter) ? letters.indexOf(letter) + 1 : ''
    return own
      .toSorted((a, b) => a.position - b.position)
      .map((serving): Readonly<Record<Column, string | number>> => {
        const cup = cups.find((one) => one.trialId === serving.cup.trialId)
        const letter = cup?.letter ?? ''
        return {
          panel: panel.title,
          taster: set.seat,
          position: serving.position,
          code: serving.code,
          cup: letter,
          trial: cup?.trialNumber ?? '',
          trial_name: cup?.name ?? '',
          house_recipe: cup?.isHouse ? 'yes' : 'no',
          rank: why === null ? place(set.letters, letter) : '',
          not_counted: place(left?.letters, letter),
          why_not: left?.why ?? '',
          set_aside: aside ?? 'no',
          source: set.source,
          answered_at: set.at === null ? '' : new Date(set.at).toISOString(),
          skipped: set.skipReason === null ? '' : set.skipReason || 'no reason given',
        }
      })
  })
  return stringify(lines, {
    header: true,
    escape_formulas: true,
    record_delimiter: 'windows',
    columns: rankColumns.map(([name]) => name),
  })
}

/** The same numbers in R. The exact p walks through every order of every taster, so it stops where there are too many sums. */
export const rankScript = `# Computes Friedman's test and every pair of one panel of orders from its orders file.
# Rscript sipwright-panel.R sipwright-scores.csv
file <- commandArgs(trailingOnly = TRUE)[1]
rows <- read.csv(file, encoding = "UTF-8", stringsAsFactors = FALSE)
rows <- rows[!is.na(rows$rank), ]
place <- tapply(rows$rank, list(rows$taster, rows$cup), sum)
n <- nrow(place); k <- ncol(place)
for (cup in colnames(place))
  cat(sprintf("%s put first by %d of %d, mean place %.6f\\n", cup, sum(place[, cup] == 1), n, mean(place[, cup])))
test <- friedman.test(place)
cat(sprintf("Friedman: chi-squared %.6f on %d, p %.6f\\n", test$statistic, k - 1, test$p.value))
orders <- as.matrix(expand.grid(rep(list(1:k), k)))
orders <- orders[apply(orders, 1, function(o) length(unique(o)) == k), ]
sums <- matrix(0, 1, k); ways <- 1
for (i in seq_len(n)) {
  all <- do.call(rbind, lapply(seq_len(nrow(orders)), function(o) sweep(sums, 2, orders[o, ], "+")))
  weight <- rep(ways, nrow(orders)) / nrow(orders)
  ways <- tapply(weight, apply(t(apply(all, 1, sort)), 1, paste, collapse = " "), sum)
  sums <- do.call(rbind, lapply(strsplit(names(ways), " "), as.numeric))
  ways <- as.numeric(ways)
  if (nrow(sums) > 2000) { ways <- NA; break }
}
far <- rowSums((sums - n * (k + 1) / 2)^2) >= sum((colSums(place) - n * (k + 1) / 2)^2) - 1e-9
if (anyNA(ways)) cat("exact p: too many orders to count\\n") else cat(sprintf("exact p %.6f\\n", sum(ways[far])))
pairs <- combn(colnames(place), 2)
liked <- apply(pairs, 2, function(ab) sum(place[, ab[1]] < place[, ab[2]]))
sign <- sapply(liked, function(x) binom.test(x, n, 0.5)$p.value)
holm <- p.adjust(sign, "holm")
for (i in seq_along(liked))
  cat(sprintf("%s above %s: %d of %d, sign test p %.6f, after Holm %.6f\\n", pairs[1, i], pairs[2, i], liked[i], n, sign[i], holm[i]))
`
