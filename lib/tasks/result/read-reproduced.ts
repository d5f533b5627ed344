import 'server-only'
import { findPanel } from '@/lib/db/panels'
import { designOf } from '@/lib/panel/kinds/kinds'
import { isUnblinded, findStage } from '@/lib/panel/plan'
import { choiceScript } from './choice-export'
import { differenceCommand, differenceScript } from './difference-export'
import { rankScript } from './rank-export'
import { columnOf } from './export-further'
import { planned, resultCups, type Planned } from './panel-answers'
import type { Actor, World } from '../world'

/** What computes a panel's numbers again from its scores file. */
export interface Reproduced {
  /** words behind `npm run -s stats --` */
  readonly command: string
  /** of each further question that another analysis reads: its file and the words that give its numbers */
  readonly further: readonly {
    readonly file: 'just-right' | 'words'
    readonly name: string
    readonly command: string
  }[]
  /** an R script; of liking it needs lme4 and clubSandwich */
  readonly script: string
}

/** @returns null while the panel is not closed, or not there */
export async function readReproduced(world: World, actor: Actor, panelId: string): Promise<Reproduced | null> {
  const panel = await findPanel(world.db, actor.cafeId, panelId)
  if (!panel || !isUnblinded(findStage(panel.stage) ?? 'draft')) return null
  const asks = designOf(panel)
  if (asks?.kind === 'difference')
    return { command: differenceCommand(asks), further: [], script: differenceScript(asks) }
  if (asks?.kind === 'rank') return { command: 'ranking sipwright-scores.csv', further: [], script: rankScript }
  if (asks) return { command: 'preference sipwright-scores.csv', further: [], script: choiceScript }
  const cups = resultCups(panel)
  const plan = planned(panel, cups)
  const asked = panel.attributes[0]?.name ?? ''
  return {
    command: statsWords(plan, asked).map(quoted).join(' '),
    further: panel.attributes.slice(1).flatMap((one) => furtherOf(one)),
    script: rScript(
      plan,
      cups.map(({ letter }) => letter),
      asked,
    ),
  }
}

const quoted = (word: string) => (/^[\w.,/=+-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`)

/** The words that make the `stats` command give the page's numbers from its scores file. */
function statsWords({ kind, house, pair: [a, b], margin }: Planned, attribute: string): string[] {
  return [
    'acceptance',
    'sipwright-scores.csv',
    ...['--where', `attribute=${attribute}`],
    ...(kind === 'against-house' && house !== null
      ? ['--plan', 'against', '--control', house]
      : kind === 'one-pair' && a !== null && b !== null
        ? ['--plan', 'pair', '--pair', `${a},${b}`]
        : ['--plan', 'all']),
    ...(margin === null ? [] : ['--margin', String(margin), '--margin-level', '0.9']),
    ...['--skips', 'would_rather_not'],
  ]
}

function furtherOf(asked: { readonly name: string; readonly kind: string }): Reproduced['further'] {
  const said = (words: readonly string[]) => words.map(quoted).join(' ')
  if (asked.kind === 'just-right-5') {
    const words = [
      'jar',
      'sipwright-just-right.csv',
      '--attribute',
      columnOf(asked),
      '--liking',
      'liking',
      '--by',
      'cup',
    ]
    return [{ file: 'just-right', name: asked.name, command: said(words) }]
  }
  if (asked.kind !== 'words') return []
  const words = ['check', 'sipwright-words.csv', '--where', `question=${asked.name}`]
  return [{ file: 'words', name: asked.name, command: said(words) }]
}

/** The planned comparisons in R: each difference, its error by tasters, and its joint interval. */
function rScript(plan: Planned, cups: readonly string[], attribute: string): string {
  const pairs = comparisonsOf(plan, cups)
  const twice = `length(unique(scores$replicate)) > 1`
  return `# Computes the planned comparisons of one panel from its scores file.
# Rscript sipwright-panel.R sipwright-scores.csv
# Needs the packages lme4 and clubSandwich.
file <- commandArgs(trailingOnly = TRUE)[1]
scores <- read.csv(file, encoding = "UTF-8", stringsAsFactors = FALSE)
scores <- scores[scores$attribute == ${rText(attribute)} & !is.na(scores$score), ]
pairs <- list(${pairs.map(([a, b]) => `c(${rText(a)}, ${rText(b)})`).join(', ')})
level <- 0.95
${plan.kind === 'one-pair' ? 'scores <- scores[scores$cup %in% unlist(pairs), ]\n' : ''}scores$cup <- factor(scores$cup)
scores$taster <- factor(scores$taster)
suppressMessages({ library(lme4); library(clubSandwich) })
formula <- score ~ 0 + cup + (1 | taster)
if (${twice}) formula <- score ~ 0 + cup + (1 | taster) + (1 | taster:cup)
model <- lmer(formula, scores)
cups <- levels(scores$cup)
vcov <- vcovCR(model, cluster = scores$taster, type = "CR2")
for (pair in pairs) if (all(pair %in% cups)) {
  weights <- matrix((cups == pair[1]) - (cups == pair[2]), nrow = 1)
  test <- linear_contrast(model, vcov = vcov, contrasts = weights, test = "Satterthwaite", level = 1 - (1 - level) / length(pairs))
  cat(sprintf("%s less %s: %.6f, standard error %.6f on %.4f degrees of freedom, joint 95 %% interval %.6f to %.6f\\n",
    pair[1], pair[2], test$Est, test$SE, test$df, test$CI_L, test$CI_U))
}
`
}

function comparisonsOf({ kind, house, pair: [a, b] }: Planned, cups: readonly string[]): (readonly [string, string])[] {
  if (kind === 'against-house' && house !== null)
    return cups.filter((cup) => cup !== house).map((cup) => [cup, house] as const)
  if (kind === 'one-pair' && a !== null && b !== null) return [[a, b]]
  return cups.flatMap((one, place) => cups.slice(place + 1).map((other) => [one, other] as const))
}

const rText = (text: string) => JSON.stringify(text)
