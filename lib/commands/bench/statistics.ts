import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { acceptance, type AcceptanceRow } from '@/lib/stats/acceptance'
import { seededRandom } from '@/lib/stats/random'
import { below, millisecondsOf, plainly, warmed, type Measured } from './measure'

/** Invented scores: tasters with a level of their own, the first `served` of a rotation of the cups each. */
export function inventedRows(tasters: number, cups: number, served: number, seed: number): AcceptanceRow[] {
  const random = seededRandom(seed)
  const noise = () => random.unit() + random.unit() + random.unit() - 1.5
  return Array.from({ length: tasters }, (_, taster) => {
    const level = noise()
    return Array.from({ length: served }, (_unused, at) => {
      const cup = (taster + at) % cups
      const score = Math.min(9, Math.max(1, Math.round(5.5 + level + cup * 0.15 + 2 * noise())))
      return { taster: String(taster), cup: `cup ${cup + 1}`, score, position: at + 1 }
    })
  }).flat()
}

export function benchStatistics(): Measured[] {
  // As the result page asks: order effects for overall liking, and none for the seven further aspects.
  const attributes = Array.from({ length: 8 }, (_, seed) => {
    const rows = inventedRows(60, 5, 5, seed + 1)
    return seed === 0 ? rows : rows.map((row) => ({ ...row, position: null }))
  })
  const page = warmed(() => attributes.map((rows) => acceptance(rows, { level: 0.95 })), 10, 20)
  return [
    below('stats', '60 tasters × 5 cups × 8 attributes as the result page asks, warm', page, 'ms', 30),
    ...largePanel(),
    below('stats', '`stats acceptance` on 300 rows, whole process', wholeProcess(), 'ms', 1200),
    besideR(),
  ]
}

function largePanel(): Measured[] {
  const size = (tasters: number) => inventedRows(tasters, 6, 4, 99).map(({ position: _place, ...row }) => row)
  const [small, large] = [size(5_000), size(20_000)]
  acceptance(small, { level: 0.95 })
  const before = process.memoryUsage().rss
  const quick = Math.min(...Array.from({ length: 3 }, () => millisecondsOf(() => acceptance(small, { level: 0.95 }))))
  const long = Math.min(...Array.from({ length: 3 }, () => millisecondsOf(() => acceptance(large, { level: 0.95 }))))
  const grown = Math.max(0, process.memoryUsage().rss - before) / 2 ** 20
  return [
    below('stats', '20 000 tasters × 4 of 6 cups', long, 'ms', 250),
    below('stats', 'memory taken for it', grown, 'MB', 300),
    plainly('stats', 'time for 20 000 tasters over time for 5 000 (4 is linear)', long / quick, 'times'),
  ]
}

function csvOf(rows: readonly AcceptanceRow[]): string {
  return ['taster,cup,score', ...rows.map((row) => `${row.taster},${row.cup},${row.score}`)].join('\n')
}

function wholeProcess(): number {
  const folder = mkdtempSync(join(tmpdir(), 'sipwright-bench-'))
  try {
    const file = join(folder, 'scores.csv')
    writeFileSync(file, csvOf(inventedRows(60, 5, 5, 1)))
    const once = () => spawnSync('npm', ['run', '-s', 'stats', '--', 'acceptance', file], { encoding: 'utf8' })
    once()
    return Math.min(millisecondsOf(once), millisecondsOf(once), millisecondsOf(once))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

const script = `suppressMessages({library(lmerTest); library(emmeans)})
d <- read.csv(commandArgs(TRUE)[1]); d$taster <- factor(d$taster); d$cup <- factor(d$cup)
go <- function() { m <- lmer(score ~ cup + (1 | taster), d); anova(m); summary(pairs(emmeans(m, "cup"), adjust = "tukey"), infer = TRUE) }
invisible(go()); cat(min(sapply(1:5, function(i) system.time(go())[["elapsed"]])) * 1000)`

/** One attribute of the same panel in R, where R and its packages are on this machine. */
function besideR(): Measured {
  const what = 'one attribute of 60 × 5 in R (lme4, lmerTest, emmeans), warm'
  const folder = mkdtempSync(join(tmpdir(), 'sipwright-bench-'))
  try {
    const file = join(folder, 'scores.csv')
    writeFileSync(file, csvOf(inventedRows(60, 5, 5, 1)))
    const ran = spawnSync('Rscript', ['-e', script, file], { encoding: 'utf8', timeout: 120_000 })
    const milliseconds = Number(ran.stdout)
    return ran.status === 0 && milliseconds > 0
      ? plainly('stats', what, milliseconds, 'ms')
      : plainly('stats', what, null, 'ms', 'R or a package of it is not on this machine')
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
