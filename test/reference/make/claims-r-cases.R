# What may be claimed of a panel: joint intervals with cluster-robust errors, and the words read off them, in R.
# Run from the root of the repository: Rscript test/reference/make/claims-r-cases.R
# The rules are written out here anew from their sentences: Bonferroni over the plan, t quantile on clubSandwich's CR2
# Satterthwaite degrees of freedom, a standard error of at least S/sqrt(6 n), words by where the interval lies.
suppressMessages({ library(lme4); library(clubSandwich); library(jsonlite) })
tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhobeg = 0.2, rhoend = 1e-10, maxfun = 1e5),
                     calc.derivs = FALSE, check.conv.singular = "ignore", check.conv.grad = "ignore", check.conv.hess = "ignore")
set.seed(20261127)

panel <- function(N, K, per = K, sdT = 1, sd = 1.2, effects = rep(0, K), divide = 0, lost = 0, digits = 0, reps = 1) {
  d <- do.call(rbind, lapply(seq_len(N), function(i) {
    cups <- sort(sample(K, per)); side <- sample(c(-1, 1), 1) * divide; own <- rnorm(1, 0, sdT)
    do.call(rbind, lapply(seq_len(reps), function(r) data.frame(taster = sprintf("t%02d", i), cup = LETTERS[cups],
      score = 6 + own + effects[cups] + side * (cups == 1) + rnorm(per, 0, sd))))
  }))
  d$score <- round(d$score, digits)
  if (lost > 0) d <- d[-sample(nrow(d), lost), ]
  d
}

word <- function(low, high) if (low > 0) "a better" else if (high < 0) "b better" else "cannot tell"
byMargin <- function(low, high, M) {
  if (low > M) "a better by the margin" else if (high < -M) "b better by the margin"
  else if (low > -M && high < M) "as good" else if (low > -M) "a not worse" else if (high < M) "b not worse" else "cannot tell"
}

claims <- function(d, plan, level, margin, marginLevel, step, nested) {
  cups <- sort(unique(d$cup))
  pairs <- if (plan$plan == "against") lapply(setdiff(cups, plan$control), function(x) c(x, plan$control))
           else if (plan$plan == "pair") list(sort(plan$pair)) else combn(cups, 2, simplify = FALSE)
  if (plan$plan == "pair") d <- d[d$cup %in% plan$pair, ]
  K <- sort(unique(d$cup)); d$cup <- factor(d$cup, levels = K); d$taster <- factor(d$taster)
  m <- lmer(as.formula(paste("score ~ 0 + cup + (1 | taster)", if (nested) "+ (1 | taster:cup)")), d, control = tight)
  V <- vcovCR(m, cluster = d$taster, type = "CR2")
  W <- do.call(rbind, lapply(pairs, function(p) (K == p[1]) - (K == p[2])))
  r <- linear_contrast(m, vcov = V, contrasts = W, test = "Satterthwaite")
  r$SE[is.nan(r$SE)] <- 0                                     # all differences equal: rounding leaves -1e-17 under the root
  panelTasters <- nlevels(droplevels(d$taster)); k <- length(pairs)
  lapply(seq_along(pairs), function(i) {
    p <- pairs[[i]]
    both <- length(intersect(d$taster[d$cup == p[1]], d$taster[d$cup == p[2]]))
    se <- max(r$SE[i], if (both > 0) step / sqrt(6 * both) else 0); df <- r$df[i]
    at <- function(l) r$Est[i] + c(-1, 1) * qt(1 - (1 - l) / (2 * k), df) * se
    I <- at(level); J <- at(marginLevel); few <- panelTasters < 6 || df < 4
    list(a = p[1], b = p[2], tasters = both, difference = r$Est[i], se = se, df = df, low = I[1], high = I[2],
         claim = if (few) "too few tasters" else word(I[1], I[2]), lowMargin = J[1], highMargin = J[2],
         byMargin = if (few) NULL else byMargin(J[1], J[2], margin))
  })
}

case <- function(name, d, plan = list(plan = "all"), level = 0.95, margin = 0.5, marginLevel = level, step = NULL, nested = FALSE) {
  s <- if (is.null(step)) as.numeric(all(d$score == round(d$score))) else step
  list(name = name, plan = plan, level = level, margin = margin, marginLevel = marginLevel, step = step, nested = nested,
       rows = list(taster = d$taster, cup = d$cup, score = d$score),
       claims = claims(d, plan, level, margin, marginLevel, s, nested))
}
against <- list(plan = "against", control = "B"); pair <- list(plan = "pair", pair = c("C", "A"))
unanimous <- panel(9, 3, effects = c(0, 2, 1)); unanimous$score[unanimous$cup == "B"] <- unanimous$score[unanimous$cup == "A"] + 2
cases <- list(
  case("complete", panel(12, 4, effects = c(0, 1, 1.5, 0))),
  case("complete, margin at 90 %", panel(30, 3, sd = 0.8, effects = c(0, 0.1, 1.4)), margin = 1, marginLevel = 0.9),
  case("one score missing, a cup divides", panel(18, 3, divide = 3, effects = c(0, 1.2, 0), lost = 1)),
  case("one missing, against", panel(18, 3, divide = 3, effects = c(0, 1.5, 0), lost = 1), against),
  case("4 of 6 cups each", panel(24, 6, per = 4, effects = c(2, 0, 0, 0, 0.5, 0)), marginLevel = 0.9),
  case("4 of 6, against, half points", within(panel(24, 6, per = 4, effects = c(2, 0, 0, 0, 0.5, 0), digits = 1), score <- round(2 * score) / 2), against, step = 0.5),
  case("one pair, its scores alone", panel(16, 4, lost = 6, effects = c(1.5, 0, 0, 0)), pair),
  case("one pair, level 0.9", panel(16, 4, lost = 6, digits = 2), pair, level = 0.9),
  case("five tasters", panel(5, 3, effects = c(0, 3, 0))),
  case("all differ by two", unanimous),
  case("nearly alike, the step decides", within(panel(8, 3, sd = 0.05, effects = c(0, 0.6, 0.2)), score <- { score[3] <- score[3] + 1; score })),
  case("repeats", panel(10, 3, reps = 2, effects = c(0, 1.5, 0.5), lost = 5), nested = TRUE),
  case("liked far better", panel(20, 3, sd = 0.7, effects = c(3, 0, 0), lost = 3), margin = 1),
  case("a cup that two tasters scored", { d <- panel(14, 3, effects = c(0, 1, 0)); d[!(d$cup == "C" & !(d$taster %in% c("t03", "t09"))), ] }))
versions <- c(R = as.character(getRversion()), sapply(c("lme4", "clubSandwich"), function(p) as.character(packageVersion(p))))
writeLines(toJSON(list(
  source = "made-up panels, set.seed(20261127); rules as written in the script", page = NULL, tool = "R", versions = as.list(versions),
  script = "test/reference/make/claims-r-cases.R", made = "2026-11-26",
  tolerance = "1e-5 relative for errors, 1e-4 for degrees of freedom, 1e-4 absolute for ends of intervals; words exactly",
  cases = cases), auto_unbox = TRUE, digits = I(14), null = "null"), "test/reference/data/claims-r-cases.json")
for (x in cases) cat(x$name, ":", paste(sapply(x$claims, function(c) paste0(c$a, c$b, " ", c$claim, "/", c$byMargin)), collapse = "; "), "\n")
