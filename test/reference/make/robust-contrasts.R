# Standard errors that believe only in the tasters, and their degrees of freedom, from R's clubSandwich.
# Run from the root of the repository: Rscript test/reference/make/robust-contrasts.R
# CR2 clustered by taster, weights and working covariance those of the REML fit, Satterthwaite degrees of freedom.
# Panels: those of acceptance-r-cases.json, and 64 messy ones drawn here (gaps, incomplete blocks, walk-outs, repeats,
# sessions, dividing cups, tasters who do not differ, half points, a wide scale).
suppressMessages({ library(lme4); library(clubSandwich); library(jsonlite) })
tight <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhobeg = 0.2, rhoend = 1e-10, maxfun = 1e5),
                     calc.derivs = FALSE, check.conv.singular = "ignore", check.conv.grad = "ignore", check.conv.hess = "ignore")

analyse <- function(d, nested, session, at = 0) {
  d$cup <- factor(d$cup, levels = sort(unique(d$cup))); d$taster <- factor(d$taster); d$session <- factor(d$session)
  d$y <- d$score - at                                       # R loses digits over an offset that our own code takes off
  f <- paste("y ~ 0 + cup", if (session) "+ session", "+ (1 | taster)", if (nested) "+ (1 | taster:cup)")
  m <- lmer(as.formula(f), d, control = tight)
  K <- nlevels(d$cup); p <- length(fixef(m)); S <- if (session) nlevels(d$session) else 1
  rows <- list()
  for (i in 1:K) { w <- rep(0, p); w[i] <- 1; if (S > 1) w[(K + 1):p] <- 1 / S; rows[[length(rows) + 1]] <- w }
  for (i in seq_len(K - 1)) for (j in (i + 1):K) { w <- rep(0, p); w[i] <- 1; w[j] <- -1; rows[[length(rows) + 1]] <- w }
  V <- vcovCR(m, cluster = d$taster, type = "CR2")
  r <- linear_contrast(m, vcov = V, contrasts = do.call(rbind, rows), test = "Satterthwaite", p_values = TRUE)
  vc <- as.data.frame(VarCorr(m)); v <- function(g) { z <- vc$vcov[vc$grp == g]; if (length(z)) z else NULL }
  mean <- seq_len(K)
  list(variance = list(taster = v("taster"), tasterByCup = v("taster:cup"), residual = v("Residual")),
       means = list(estimate = I(r$Est[mean] + at), se = I(r$SE[mean]), df = I(r$df[mean])),
       pairs = list(difference = I(r$Est[-mean]), se = I(r$SE[-mean]), df = I(r$df[-mean]), p = I(r$p_val[-mean])))
}

known <- fromJSON("test/reference/data/acceptance-r-cases.json", simplifyVector = TRUE, simplifyDataFrame = FALSE)$cases
first <- lapply(known, function(x) {
  d <- as.data.frame(x$rows)
  c(list(name = x$name, nested = x$nested, session = x$session), analyse(d, x$nested, x$session, median(d$score)))
})

set.seed(20261126)
messy <- function(k) {
  repeat {
    N <- sample(6:24, 1); K <- sample(2:6, 1)
    nested <- runif(1) < 0.25; session <- runif(1) < 0.2
    reps <- if (nested) sample(2:3, 1) else 1
    d <- expand.grid(rep = seq_len(reps), cup = seq_len(K), taster = seq_len(N))
    kind <- sample(c("complete", "gaps", "blocks", "leave"), 1)
    if (kind == "gaps") d <- d[runif(nrow(d)) > runif(1, 0.05, 0.35), ]
    if (kind == "blocks" && K > 2) { b <- sample(2:(K - 1), 1); d <- do.call(rbind, lapply(split(d, d$taster), function(x) x[x$cup %in% sample(K, b), ])) }
    if (kind == "leave") { gone <- runif(N) < 0.3; order <- t(replicate(N, sample(K)))
      keep <- mapply(function(t, c) !gone[t] || which(order[t, ] == c) <= max(1, K - 2), d$taster, d$cup); d <- d[keep, ] }
    if (nested && kind != "complete") d <- d[runif(nrow(d)) > 0.15, ]
    sdT <- sample(c(0, 0.3, 1, 3), 1); sd <- runif(1, 0.5, 2); sdC <- if (nested) sample(c(0, 1), 1) else 0
    own <- rnorm(N, 0, sdT); cell <- matrix(rnorm(N * K, 0, sdC), N); divide <- sample(c(0, 0, 2), 1) * sample(c(-1, 1), N, TRUE)
    d$session <- if (session) sample(c("s1", "s2"), nrow(d), TRUE) else "s1"
    y <- 6 + own[d$taster] + rnorm(K)[d$cup] + cell[cbind(d$taster, d$cup)] + divide[d$taster] * (d$cup == 1) + (d$session == "s2") * 0.8 + rnorm(nrow(d), 0, sd)
    y <- switch(sample(4, 1), round(y), round(2 * y) / 2, round(10 * y), round(y, 6))
    d <- data.frame(taster = sprintf("t%02d", d$taster), cup = LETTERS[d$cup], session = d$session, score = y)
    # all cups scored and connected, something left for the residual, both sessions used
    if (length(unique(d$cup)) < 2 || length(unique(d$taster)) < 5 || (session && length(unique(d$session)) < 2)) next
    X <- model.matrix(as.formula(paste("~ 0 + factor(cup)", if (session) "+ factor(session)")), d)
    B <- model.matrix(~ 0 + taster, d)
    if (nrow(d) - qr(cbind(X, B))$rank < 2) next
    if (qr(cbind(X, B))$rank < ncol(X) + ncol(B) - 1) next
    if (sd(resid(lm.fit(cbind(X, B), d$score))) < 1e-6) next
    r <- try(analyse(d, nested, session), silent = TRUE)
    if (inherits(r, "try-error") || any(!is.finite(unlist(r$pairs)))) next
    return(c(list(name = sprintf("messy %d, %s%s%s", k, kind, if (nested) ", repeats" else "", if (session) ", sessions" else ""),
                  nested = nested, session = session, rows = as.list(d)), r))
  }
}
cases <- c(first, lapply(1:64, messy))
versions <- c(R = as.character(getRversion()), sapply(c("lme4", "clubSandwich"), function(p) as.character(packageVersion(p))))
writeLines(toJSON(list(
  source = "Bell and McCaffrey 2002; Pustejovsky and Tipton 2018; made-up panels, set.seed(20261126)", page = NULL, tool = "R",
  versions = as.list(versions), script = "test/reference/make/robust-contrasts.R", made = "2026-11-26",
  tolerance = "1e-5 relative for standard errors, 1e-4 for degrees of freedom: the optimiser's last digits of the variances",
  cases = cases), auto_unbox = TRUE, digits = I(14), null = "null", na = "null"), "test/reference/data/robust-contrasts.json")
