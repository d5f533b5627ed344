# Liking panels made up with a fixed seed, and what R's mixed model packages say about them.
# Run from the root of the repository: Rscript test/reference/make/acceptance-r-cases.R
# Satterthwaite: lmerTest; Kenward-Roger: pbkrtest; marginal means and pairs: emmeans; where a variance is estimated at
# zero the Satterthwaite answers are those of the model without that term (the contract's rule), by lm where none is left.
suppressMessages({ library(lme4); library(lmerTest); library(pbkrtest); library(emmeans); library(mvtnorm); library(jsonlite) })
emm_options(lmerTest.limit = 1e5, pbkrtest.limit = 1e5)
tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhobeg = 0.2, rhoend = 1e-9, maxfun = 1e5),
                     calc.derivs = FALSE, check.conv.singular = "ignore")

set.seed(20260317)
panel <- function(tasters, cups, sdTaster, sd, sdCell = 0, reps = 1, effects = NULL, sessions = 1, digits = 0, at = 6) {
  d <- expand.grid(rep = seq_len(reps), cup = LETTERS[seq_len(cups)], taster = seq_len(tasters))
  if (is.null(effects)) effects <- rnorm(cups, 0, 0.8)
  cell <- matrix(rnorm(tasters * cups, 0, sdCell), tasters)
  i <- as.integer(d$taster); j <- as.integer(factor(d$cup))
  d$session <- if (sessions > 1) paste0("s", sample(sessions, nrow(d), replace = TRUE)) else "s1"
  shift <- c(s1 = 0, s2 = 0.7, s3 = -0.4)
  d$score <- round(at + rnorm(tasters, 0, sdTaster)[i] + effects[j] + cell[cbind(i, j)] + shift[d$session] + rnorm(nrow(d), 0, sd), digits)
  d$taster <- sprintf("t%02d", i)
  d
}
keep <- function(d, share) d[sort(sample(nrow(d), round(share * nrow(d)))), ]
blocks <- function(d, m) do.call(rbind, lapply(split(d, d$taster), function(x) x[sort(sample(nrow(x), m)), ]))

# draws until exactly the wanted variances are estimated at zero
until <- function(make, wanted, random) repeat {
  d <- make()
  m <- lmer(as.formula(paste("score ~ cup +", random)), d, control = tight)
  zero <- names(getME(m, "theta"))[getME(m, "theta") < 1e-4]
  if (setequal(zero, wanted)) return(d)
}
one <- "(1 | taster)"; two <- "(1 | taster) + (1 | taster:cup)"
T0 <- "taster.(Intercept)"; C0 <- "taster:cup.(Intercept)"

sets <- list(
  balanced = list(d = panel(8, 4, 1, 1.2)),
  missingAtRandom = list(d = keep(panel(12, 5, 1, 1.2), 0.7)),
  incompleteBlocks = list(d = blocks(panel(24, 6, 1, 1.2), 4)),
  blocksOfTwo = list(d = blocks(panel(15, 4, 1.3, 1), 2)),
  singular = list(d = until(function() keep(panel(10, 3, 0, 1.5), 0.85), T0, one), wantSingular = "taster"),
  singularBalanced = list(d = until(function() panel(9, 4, 0, 1.5), T0, one), wantSingular = "taster"),
  threeTasters = list(d = panel(3, 4, 1, 1, digits = 1)),
  twoCups = list(d = keep(panel(14, 2, 1, 1), 0.85)),
  largeOffset = list(d = keep(panel(10, 4, 1, 1.2, digits = 2, at = 1e6), 0.8)),
  wideTasters = list(d = keep(panel(12, 4, 50, 1, digits = 1), 0.8)),
  sessionsCrossed = list(d = keep(panel(12, 4, 1, 1.2, sessions = 3), 0.85), session = TRUE),
  replicatesBalanced = list(d = panel(10, 3, 1, 1, sdCell = 1, reps = 2), nested = TRUE),
  replicatesUnbalanced = list(d = keep(panel(11, 4, 1, 1, sdCell = 1, reps = 3), 0.7), nested = TRUE),
  replicatesSessions = list(d = keep(panel(10, 4, 1, 1, sdCell = 0.8, reps = 3, sessions = 2), 0.75), nested = TRUE, session = TRUE),
  replicatesNoTaster = list(d = until(function() keep(panel(10, 4, 0, 1, sdCell = 1.2, reps = 2), 0.85), T0, two), nested = TRUE, wantSingular = "taster"),
  replicatesNoCell = list(d = until(function() keep(panel(10, 4, 1.2, 1, sdCell = 0, reps = 2), 0.85), C0, two), nested = TRUE, wantSingular = "cell"),
  replicatesNeither = list(d = until(function() keep(panel(10, 4, 0, 1.4, sdCell = 0, reps = 2), 0.85), c(T0, C0), two), nested = TRUE, wantSingular = "both"))

dunnettP <- function(t, df, R) {                  # P(max |T| >= t): chi density over a deterministic normal box
  inside <- function(s) sapply(s, function(u) {
    if (nrow(R) == 1) return(1 - 2 * pnorm(-t * u))
    pmvnorm(rep(-t * u, nrow(R)), rep(t * u, nrow(R)), corr = R, algorithm = Miwa(steps = 128))[1]
  })
  dens <- function(s) exp(log(2) + df / 2 * log(df / 2) - lgamma(df / 2) + (df - 1) * log(s) - df * s^2 / 2)
  hi <- 1 + 12 / sqrt(df)
  1 - integrate(function(s) inside(s) * dens(s), 0, hi, rel.tol = 1e-8, subdivisions = 400)$value
}

describe <- function(m, method, d, ftest) {
  lin <- inherits(m, "lm") && !inherits(m, "merMod")
  e <- if (lin) emmeans(m, "cup") else emmeans(m, "cup", lmer.df = method)
  s <- summary(e, infer = c(TRUE, FALSE))
  pr <- pairs(e, adjust = "none"); sp <- summary(pr, infer = c(TRUE, TRUE))
  K <- nlevels(d$cup)
  dn <- contrast(e, "trt.vs.ctrl", ref = 1, adjust = "none"); sd_ <- summary(dn)
  V <- vcov(dn); R <- cov2cor(V); dimnames(R) <- NULL
  list(overall = ftest,
       cups = data.frame(estimate = s$emmean, se = s$SE, df = s$df, low = s$lower.CL, high = s$upper.CL),
       pairs = data.frame(difference = sp$estimate, se = sp$SE, df = sp$df, t = sp$t.ratio, p = sp$p.value,
                          low = sp$lower.CL, high = sp$upper.CL, pHolm = p.adjust(sp$p.value, "holm"),
                          pTukey = if (K == 2) sp$p.value else ptukey(abs(sp$t.ratio) * sqrt(2), K, sp$df, lower.tail = FALSE),
                          reachTukey = qtukey(0.95, K, sp$df) / sqrt(2)),
       control = data.frame(difference = sd_$estimate, se = sd_$SE, df = sd_$df,
                            pDunnett = mapply(function(t, df) dunnettP(abs(t), df, R), sd_$t.ratio, sd_$df)))
}

cases <- lapply(names(sets), function(name) {
  x <- sets[[name]]; d <- x$d
  d$cup <- factor(d$cup); d$taster <- factor(d$taster); d$session <- factor(d$session)
  fixed <- if (isTRUE(x$session)) "cup + session" else "cup"
  random <- c("(1 | taster)", if (isTRUE(x$nested)) "(1 | taster:cup)")
  fit <- function(terms) lmer(as.formula(paste("score ~", paste(c(fixed, terms), collapse = " + "))), d, control = tight)
  m <- fit(random)
  vc <- as.data.frame(VarCorr(m))
  v <- function(g) { z <- vc$vcov[vc$grp == g]; if (length(z)) z else NA }
  s2 <- v("Residual"); gone <- c(v("taster"), if (isTRUE(x$nested)) v("taster:cup")) < 1e-7 * s2
  # the optimiser leaves small values: refit without the terms at zero, which is the same optimum
  left <- random[!gone]
  reduced <- if (!any(gone)) m else if (length(left)) fit(left) else lm(as.formula(paste("score ~", fixed)), d)
  if (any(gone) != !is.null(x$wantSingular)) message("case ", name, ": singular ", any(gone))
  wantTest <- function(mod) {
    if (inherits(mod, "merMod")) { a <- anova(mod, type = 3); r <- a["cup", ]
      list(F = r[["F value"]], df1 = r[["NumDF"]], df2 = r[["DenDF"]], p = r[["Pr(>F)"]]) }
    else { a <- drop1(mod, test = "F"); q <- nlevels(d$cup) - 1; f <- a["cup", "F value"]
      list(F = f, df1 = q, df2 = df.residual(mod), p = pf(f, q, df.residual(mod), lower.tail = FALSE)) }
  }
  sat <- describe(reduced, "satterthwaite", d, wantTest(reduced))
  krt <- KRmodcomp(m, cbind(matrix(0, nlevels(d$cup) - 1, 1), diag(nlevels(d$cup) - 1),
                            matrix(0, nlevels(d$cup) - 1, length(fixef(m)) - nlevels(d$cup))))$test["Ftest", ]
  kr <- describe(m, "kenward-roger", d, list(F = krt$stat, df1 = krt$ndf, df2 = krt$ddf, p = krt$p.value))
  varOf <- function(mod, g) { if (!inherits(mod, "merMod")) return(if (g == "Residual") summary(mod)$sigma^2 else 0)
    z <- as.data.frame(VarCorr(mod)); z <- z$vcov[z$grp == g]; if (length(z)) z else 0 }
  list(name = name, nested = isTRUE(x$nested), session = isTRUE(x$session), singular = any(gone),
       rows = data.frame(taster = as.character(d$taster), cup = as.character(d$cup), session = as.character(d$session), score = d$score),
       variance = list(taster = varOf(reduced, "taster"), tasterByCup = if (isTRUE(x$nested)) varOf(reduced, "taster:cup") else NULL,
                       residual = varOf(reduced, "Residual")),
       remlCriterion = REMLcrit(m), satterthwaite = sat, kenwardRoger = kr)
})
versions <- c(R = as.character(getRversion()), sapply(c("lme4", "lmerTest", "pbkrtest", "emmeans", "mvtnorm"), function(p) as.character(packageVersion(p))))
writeLines(toJSON(list(
  source = "made-up panels, set.seed(20260317); analysed with the packages named", page = NULL, tool = "R", versions = as.list(versions),
  script = "test/reference/make/acceptance-r-cases.R", made = "2026-11-25",
  tolerance = "estimates and standard errors 1e-6 relative (R's optimiser), degrees of freedom 1e-4 (its numeric Hessian), p 1e-5",
  cases = cases), auto_unbox = TRUE, digits = I(15), dataframe = "columns", null = "null"), "test/reference/data/acceptance-r-cases.json")
