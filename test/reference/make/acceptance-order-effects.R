# Position and carry-over in mixed models: williams12.csv and a made-up panel with gaps, set.seed(20260318).
# Run from the root of the repository: Rscript test/reference/make/acceptance-order-effects.R
suppressMessages({ library(lme4); library(lmerTest); library(pbkrtest); library(emmeans); library(jsonlite) })
tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhobeg = 0.2, rhoend = 1e-9, maxfun = 1e5), calc.derivs = FALSE)
w <- read.csv("test/reference/data/williams12.csv", comment.char = "#")
set.seed(20260318)
g <- do.call(rbind, lapply(1:13, function(i) data.frame(taster = sprintf("t%02d", i), cup = sample(LETTERS[1:5], 4), position = 1:4)))
g$score <- round(6 + rnorm(13)[as.integer(factor(g$taster))] + c(A = 0, B = .8, C = -.5, D = .3, E = 1)[g$cup] - .3 * g$position + rnorm(nrow(g)))
g <- g[-c(6, 19, 33, 50), ]                       # rows that are not there at all: the cup before is the nearest one left
describe <- function(name, d) {
  d <- d[order(d$taster, d$position), c("taster", "cup", "position", "score")]
  before <- unlist(lapply(split(as.character(d$cup), d$taster), function(x) c(NA, head(x, -1))))
  d$cup <- factor(d$cup); d$taster <- factor(d$taster); d$pos <- factor(d$position); K <- nlevels(d$cup)
  # sum to zero: the first cup takes -1, a serving without one before it 0
  C <- sapply(levels(d$cup)[-1], function(l) ifelse(is.na(before), 0, ifelse(before == l, 1, ifelse(before == levels(d$cup)[1], -1, 0))))
  d$C <- C
  m1 <- lmer(score ~ cup + pos + (1 | taster), d, control = tight); m2 <- lmer(score ~ cup + pos + C + (1 | taster), d, control = tight)
  rows <- function(m, pattern) { i <- grep(pattern, names(fixef(m))); L <- matrix(0, length(i), length(fixef(m))); L[cbind(seq_along(i), i)] <- 1; L }
  both <- function(m, L) { a <- contestMD(m, L); k <- KRmodcomp(m, L)$test["Ftest", ]
    list(satterthwaite = list(F = a[["F value"]], df1 = a[["NumDF"]], df2 = a[["DenDF"]], p = a[["Pr(>F)"]]),
         kenwardRoger = list(F = k$stat, df1 = k$ndf, df2 = k$ddf, p = k$p.value)) }
  list(name = name, rows = d[, c("taster", "cup", "position", "score")], position = both(m1, rows(m1, "^pos")),
       means = summary(emmeans(m1, "pos"))$emmean, carryOver = both(m2, rows(m2, "^C")))
}
cases <- list(describe("williams12", w), describe("gaps", g))
versions <- c(R = as.character(getRversion()), sapply(c("lme4", "lmerTest", "pbkrtest", "emmeans"), function(p) as.character(packageVersion(p))))
writeLines(toJSON(list(source = "williams12.csv (made up) and a made-up panel, set.seed(20260318)", page = NULL, tool = "R", versions = as.list(versions),
  script = "test/reference/make/acceptance-order-effects.R", made = "2026-11-25", tolerance = "F 1e-6, df 1e-4, means 1e-7 relative",
  cases = cases), auto_unbox = TRUE, digits = I(15), dataframe = "columns", null = "null"), "test/reference/data/acceptance-order-effects.json")
