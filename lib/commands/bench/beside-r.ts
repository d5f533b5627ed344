import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { csvOf, inventedRows, withoutOrder } from './invented-rows'
import { plainly, type Measured } from './measure'
import { runProgram } from './run-program'

/** One attribute: model, F, Tukey's pairs. The large panel: the fit alone, for emmeans stops counting degrees of freedom there. */
const script = `suppressMessages({library(lmerTest); library(emmeans)})
files <- commandArgs(TRUE)
read <- function(f) { d <- read.csv(f); d$taster <- factor(d$taster); d$cup <- factor(d$cup); d }
one <- read(files[1])
whole <- function() { m <- lmer(score ~ cup + (1 | taster), one); anova(m); summary(pairs(emmeans(m, "cup"), adjust = "tukey"), infer = TRUE) }
invisible(whole())
small <- median(sapply(1:7, function(i) system.time(whole())[["elapsed"]])) * 1000
large <- read(files[2])
long <- median(sapply(1:3, function(i) system.time(lme4::lmer(score ~ cup + (1 | taster), large))[["elapsed"]])) * 1000
cat(small, long)`

/** The same invented panels in R, where R and its packages are on this machine. */
export async function besideR(folder: string): Promise<Measured[]> {
  const files = [inventedRows(60, 5, 5, 1), withoutOrder(inventedRows(20_000, 6, 4, 99))].map((rows, place) => {
    const file = join(folder, `r-${place}.csv`)
    writeFileSync(file, csvOf(rows))
    return file
  })
  const ran = await runProgram('Rscript', ['-e', script, ...files], 180_000)
  const [small = NaN, large = NaN] = ran.code === 0 ? ran.output.trim().split(/\s+/).map(Number) : []
  const measured = (what: string, milliseconds: number) =>
    milliseconds > 0
      ? plainly({ part: 'stats', what, unit: 'ms' }, milliseconds)
      : plainly({ part: 'stats', what, unit: 'ms', note: 'R, or a package of it, is not here' }, null)
  return [
    measured('R beside it: one attribute of 60 × 5 (lme4, lmerTest, emmeans), warm, median', small),
    measured('R beside it: 20 000 tasters × 4 of 6 cups, fit alone (lme4), median', large),
  ]
}
