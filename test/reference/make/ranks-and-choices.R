# Reference values for lib/stats: ranks, choices, agreement, doses, repeated panels.
# Rscript test/reference/make/ranks-and-choices.R   writes test/reference/data/ranks-and-choices.json
# Everything exact is counted by brute force (every order, every sequence); the rest comes from R's own tests and models.
suppressMessages({library(jsonlite); library(MASS); library(metafor); library(survival); library(lmerTest); library(gtools)})
set.seed(20260)
cases <- list()

## Friedman and Page, with ties; exact by every order of every taster
every_order <- function(row) unique(permutations(length(row), length(row), seq_along(row), set = FALSE) |> apply(1, \(p) row[p]) |> t())
exact_over_orders <- function(ranks, statistic) {
  orders <- lapply(seq_len(nrow(ranks)), \(i) every_order(ranks[i, ]))
  grid <- expand.grid(lapply(orders, \(o) seq_len(nrow(o))))
  seen <- statistic(ranks)
  values <- apply(grid, 1, \(g) statistic(do.call(rbind, lapply(seq_along(g), \(i) orders[[i]][g[i], ]))))
  mean(values >= seen - 1e-9)
}
friedman_case <- function(m, exact) {
  r <- t(apply(m, 1, rank)); k <- ncol(m); f <- friedman.test(m)
  chi <- \(x) sum((colSums(x) - nrow(x) * (k + 1) / 2)^2)
  L <- \(x) sum(colSums(x) * seq_len(k))
  v <- var(seq_len(k)) * sum(apply(r, 1, var)) * (k - 1)   # permutation variance of sum j r_j, summed over tasters
  z <- (L(r) - nrow(r) * k * (k + 1)^2 / 4) / sqrt(v)
  list(scores = m, chiSquared = unname(f$statistic), df = unname(f$parameter), p = f$p.value,
       pExact = if (exact) exact_over_orders(r, chi) else NA,
       L = L(r), z = z, pPage = pnorm(z, lower.tail = FALSE), pPageExact = if (exact) exact_over_orders(r, L) else NA)
}
cases$friedman <- list(
  friedman_case(matrix(sample(1:4, 12, TRUE), 4, 3), TRUE),
  friedman_case(matrix(sample(1:5, 16, TRUE) + rep(c(0, 0, 1, 2), each = 4), 4, 4), TRUE),
  friedman_case(rbind(c(1, 2, 3, 4, 5), c(2, 1, 3, 5, 4), c(1, 3, 2, 4, 5)), TRUE),
  friedman_case(rbind(c(5, 5, 5, 5), c(1, 2, 2, 4), c(3, 3, 1, 2), c(1, 4, 4, 9), c(7, 6, 8, 9)), TRUE),
  friedman_case(matrix(sample(1:9, 30 * 5, TRUE), 30, 5), FALSE))

## Signed rank, Pratt: every sign
pratt <- function(d) {
  r <- rank(round(abs(d), 10)); keep <- abs(d) > 1e-12; r <- r[keep]; s <- sign(d[keep]); m <- length(r)
  V <- sum(r[s > 0]); mid <- sum(r) / 2
  if (m <= 16) {
    signs <- as.matrix(expand.grid(rep(list(0:1), m)))
    p <- mean(abs(signs %*% r - mid) >= abs(V - mid) - 1e-9)
  } else p <- 2 * pnorm(-abs(V - mid) / sqrt(sum(r^2) / 4))
  list(d = d, statistic = V, p = p, exact = m <= 16)
}
cases$signedRank <- list(
  pratt(c(1, -2, 0, 3, 3, -1, 0, 2, 2, 5)), pratt(c(0.1 + 0.2, -0.3, 0.5, 0.4, -0.1, 0.8, 0)),
  pratt(c(-1, -1, -1, 0, 1, 1, 2, -3, 4, 4, 4, 5)), pratt(sample(c(-3:-1, 0, 1:4), 75, TRUE)))

## Incomplete ranks: covariance by every order, statistic by generalized inverse; F from lm on ranks
incomplete_case <- function(m) {
  t <- ncol(m); b <- nrow(m)
  rank_row <- \(x) { x[!is.na(x)] <- rank(x[!is.na(x)]); x }
  r <- t(apply(m, 1, rank_row))
  centred <- \(x) colSums(x - rowMeans(x, na.rm = TRUE), na.rm = TRUE)
  orders <- lapply(seq_len(b), \(i) { at <- which(!is.na(r[i, ])); o <- every_order(r[i, at]); full <- matrix(NA, nrow(o), t); full[, at] <- o; full })
  V <- Reduce(`+`, lapply(orders, \(o) { x <- o - rowMeans(o, na.rm = TRUE); x[is.na(x)] <- 0; crossprod(x) / nrow(x) }))
  G <- ginv(V); T <- \(x) { u <- centred(x); c(u %*% G %*% u) }
  grid <- expand.grid(lapply(orders, \(o) seq_len(nrow(o))))
  seen <- T(r)
  values <- apply(grid, 1, \(g) T(do.call(rbind, lapply(seq_along(g), \(i) orders[[i]][g[i], ]))))
  long <- data.frame(rank = c(r), taster = factor(c(row(r))), cup = factor(c(col(r)))); long <- long[!is.na(long$rank), ]
  a <- anova(lm(rank ~ taster + cup, long))
  df <- sum(svd(V)$d > 1e-8)
  list(ranks = m, chiSquared = seen, df = df, p = pchisq(seen, df, lower.tail = FALSE), F = a["cup", "F value"],
       df1 = a["cup", "Df"], df2 = a["Residuals", "Df"], pF = a["cup", "Pr(>F)"], pExact = mean(values >= seen - 1e-9), orders = nrow(grid))
}
cases$incomplete <- list(
  incomplete_case(rbind(c(1, 2, 3, NA), c(2, 1, NA, 3), c(1, NA, 2, 3), c(NA, 1, 2, 3), c(1, 2, NA, 3))),
  incomplete_case(rbind(c(1, 2, 3, 4), c(1, 2, NA, NA), c(NA, 1, 2, 3), c(2, 1, 3, NA), c(NA, NA, 1, 2))),
  incomplete_case(rbind(c(1, 2.5, 2.5, NA), c(1.5, 1.5, NA, 3), c(1, NA, 2, 3), c(NA, 1, 3, 2), c(2, 1, 3, 4))))

## Differences of rank sums in an incomplete plan without ties
u_case <- cases$incomplete[[2]]$ranks
r <- t(apply(u_case, 1, \(x) { x[!is.na(x)] <- rank(x[!is.na(x)]); x }))
orders <- lapply(seq_len(nrow(r)), \(i) { at <- which(!is.na(r[i, ])); o <- every_order(r[i, at]); full <- matrix(NA, nrow(o), 4); full[, at] <- o; full })
V <- Reduce(`+`, lapply(orders, \(o) { x <- o - rowMeans(o, na.rm = TRUE); x[is.na(x)] <- 0; crossprod(x) / nrow(x) }))
u <- colSums(r - rowMeans(r, na.rm = TRUE), na.rm = TRUE)
cases$incompletePairs <- apply(combn(4, 2), 2, \(p) {
  c <- numeric(4); c[p] <- c(1, -1)
  2 * pnorm(-abs(sum(c * u)) / sqrt(c(c %*% V %*% c)))
})

## Plackett-Luce as a stratified Cox model; standard errors of centred worths
luce_case <- function(rankings, k) {
  long <- do.call(rbind, lapply(seq_along(rankings), \(i) data.frame(strata = i, cup = rankings[[i]], time = seq_along(rankings[[i]]))))
  long$cup <- factor(long$cup, levels = seq_len(k)); long$event <- 1
  fit <- coxph(Surv(time, event) ~ cup + strata(strata), long, control = coxph.control(eps = 1e-14, iter.max = 200))
  C <- diag(k) - 1 / k; b <- c(0, coef(fit)); v <- matrix(0, k, k); v[-1, -1] <- vcov(fit)
  list(rankings = rankings, k = k, worth = c(C %*% b), se = sqrt(diag(C %*% v %*% C)), logLikelihood = fit$loglik[2])
}
cases$plackettLuce <- list(
  luce_case(list(c(1, 2, 3, 4), c(2, 1, 4, 3), c(1, 3, 2, 4), c(4, 1, 2, 3), c(3, 1, 2, 4), c(2, 4, 1, 3)), 4),
  luce_case(list(c(1, 2, 3), c(2, 3, 5), c(5, 1, 4), c(4, 3), c(3, 1, 5, 2), c(1, 4, 2), c(2, 1), c(5, 4, 3, 2, 1)), 5))

## Bradley-Terry by glm; Davidson as a log-linear model with pair effects
bt_case <- function(pairs, k) {   # a, b, preferA, preferB, none
  X <- matrix(0, nrow(pairs), k); for (i in seq_len(nrow(pairs))) { X[i, pairs[i, 1]] <- 1; X[i, pairs[i, 2]] <- -1 }
  C <- diag(k) - 1 / k
  if (all(pairs[, 5] == 0)) {
    fit <- glm(cbind(pairs[, 3], pairs[, 4]) ~ X[, -1] - 1, family = binomial, control = list(epsilon = 1e-14, maxit = 100))
    b <- c(0, coef(fit)); v <- matrix(0, k, k); v[-1, -1] <- vcov(fit); nu <- NA; dev <- fit$deviance; df <- fit$df.residual
  } else {
    long <- do.call(rbind, lapply(seq_len(nrow(pairs)), \(i) {
      w <- matrix(0, 3, k); w[1, pairs[i, 1]] <- 1; w[2, pairs[i, 2]] <- 1; w[3, pairs[i, 1:2]] <- 0.5
      data.frame(pair = i, count = pairs[i, 3:5], tie = c(0, 0, 1), w = I(w)) }))
    fit <- glm(count ~ factor(pair) + w[, -1] + tie, poisson, long, control = list(epsilon = 1e-14, maxit = 100))
    at <- grep("^w", names(coef(fit))); b <- c(0, coef(fit)[at]); v <- matrix(0, k, k); v[-1, -1] <- vcov(fit)[at, at]
    nu <- exp(unname(coef(fit)["tie"])); dev <- fit$deviance; df <- fit$df.residual
  }
  list(pairs = pairs, k = k, worth = c(C %*% b), se = sqrt(diag(C %*% v %*% C)), nu = nu, deviance = dev, df = df,
       p = if (df > 0) pchisq(dev, df, lower.tail = FALSE) else NA)
}
cases$bradleyTerry <- list(
  bt_case(rbind(c(1, 2, 7, 3, 0), c(1, 3, 8, 2, 0), c(2, 3, 5, 5, 0), c(1, 4, 9, 1, 0), c(2, 4, 6, 3, 0), c(3, 4, 4, 4, 0)), 4),
  bt_case(rbind(c(1, 2, 3, 1, 0), c(2, 3, 2, 2, 0), c(3, 4, 1, 3, 0), c(1, 4, 2, 2, 0)), 4),
  bt_case(rbind(c(1, 2, 5, 3, 2), c(1, 3, 6, 2, 1), c(2, 3, 3, 4, 4)), 3),
  bt_case(rbind(c(1, 2, 4, 2, 0), c(1, 3, 5, 0, 1), c(2, 4, 3, 3, 2), c(3, 4, 2, 6, 1), c(1, 4, 3, 2, 0)), 4))

## Sequential: every sequence up to the cap
sequential_case <- function(p1, alpha, beta, max) {
  D <- log(p1 / (1 - p1)); s <- log(0.5 / (1 - p1)) / D; h0 <- log(beta / (1 - alpha / 2)) / D; h1 <- log((1 - beta) / (alpha / 2)) / D
  run <- function(seq) {
    A <- B <- 0
    for (n in seq_along(seq)) {
      x <- sum(seq[1:n]); y <- n - x
      if (A == 0) A <- if (x >= h1 + s * n - 1e-9) 1 else if (x <= h0 + s * n + 1e-9) -1 else 0
      if (B == 0) B <- if (y >= h1 + s * n - 1e-9) 1 else if (y <= h0 + s * n + 1e-9) -1 else 0
      if (A == 1) return(c(1, n)); if (B == 1) return(c(2, n)); if (A == -1 && B == -1) return(c(3, n))
    }
    c(4, length(seq))
  }
  all <- as.matrix(expand.grid(rep(list(0:1), max))); out <- t(apply(all, 1, run)); x <- rowSums(all)
  figures <- \(p) { w <- p^x * (1 - p)^(max - x); c(a = sum(w[out[, 1] == 1]), b = sum(w[out[, 1] == 2]), n = sum(w * out[, 2])) }
  half <- figures(0.5); there <- figures(p1)
  list(p1 = p1, alpha = alpha, beta = beta, max = max, slope = s, lower = h0, upper = h1, falseAlarm = unname(half["a"] + half["b"]),
       power = unname(there["a"]), averageTasters = unname(half["n"]), averageTastersAtP1 = unname(there["n"]))
}
cases$sequential <- list(sequential_case(0.8, 0.1, 0.1, 14), sequential_case(0.75, 0.2, 0.2, 15), sequential_case(0.9, 0.05, 0.1, 12))

## Just about right
attribute <- sample(1:5, 40, TRUE, c(.1, .2, .4, .2, .1)); liking <- pmin(9, pmax(1, round(7 - 1.2 * abs(attribute - 3) + rnorm(40))))
side <- \(s) { t <- t.test(liking[attribute == 3], liking[attribute %in% s], conf.level = 0.9); list(n = sum(attribute %in% s), meanDrop = unname(t$estimate[1] - t$estimate[2]), se = t$stderr, df = unname(t$parameter), p = t$p.value, interval = as.numeric(t$conf.int)) }
cases$jar <- list(attribute = attribute, liking = liking, level = 0.9, tooLittle = side(1:2), tooMuch = side(4:5))

## Check all that apply: exact Q by every placing of each taster's ticks
ticks <- matrix(rbinom(6 * 4, 1, rep(c(.2, .5, .6, .8), each = 6)), 6, 4)
Q <- \(x) { k <- ncol(x); Tj <- colSums(x); u <- rowSums(x); k * (k - 1) * sum((Tj - mean(Tj))^2) / (k * sum(u) - sum(u^2)) }
long <- data.frame(y = c(ticks), g = c(row(ticks)), c = c(col(ticks)))
pairs <- combn(4, 2); pm <- apply(pairs, 2, \(p) { b <- sum(ticks[, p[1]] > ticks[, p[2]]); c <- sum(ticks[, p[1]] < ticks[, p[2]]); if (b + c == 0) 1 else binom.test(b, b + c)$p.value })
cases$check <- list(ticks = ticks, Q = Q(ticks), p = pchisq(Q(ticks), 3, lower.tail = FALSE), pExact = exact_over_orders(ticks, Q), pMcNemar = pm, pHolm = p.adjust(pm, "holm"))

## Preference with "neither": every trinomial outcome
trinomial <- function(a, b, none) {
  N <- a + b + none; q <- none / N; p <- 0
  for (i in 0:N) for (j in 0:(N - i)) if (abs(i - j) >= abs(a - b)) p <- p + dmultinom(c(i, j, N - i - j), prob = c((1 - q) / 2, (1 - q) / 2, q))
  list(a = a, b = b, none = none, p = min(1, p))
}
cases$trinomial <- list(trinomial(11, 4, 9), trinomial(3, 3, 5), trinomial(0, 7, 20), trinomial(18, 9, 1), trinomial(0, 0, 6))
cases$binomial <- lapply(list(c(14, 20), c(3, 17), c(9, 9), c(25, 50)), \(x) { t <- binom.test(x[1], x[2]); list(x = x[1], n = x[2], two = t$p.value, one = binom.test(x[1], x[2], alternative = "greater")$p.value, exact = as.numeric(t$conf.int), wilson = as.numeric(prop.test(x[1], x[2], correct = FALSE)$conf.int)) })

## Dose: unbalanced, and balanced with tasters that differ
dose_case <- function(d, level = 0.95) {
  fit <- lmer(score ~ dose + I(dose^2) + (1 | taster), d, control = lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-12)))
  co <- coef(summary(fit)); b <- fixef(fit); v <- as.matrix(vcov(fit)); flat <- isSingular(fit)
  if (flat) {   # taster variance at zero: the model without that term
    plain <- lm(score ~ dose + I(dose^2), d); co <- cbind(coef(summary(plain))[, 1:2], df = plain$df.residual, "Pr(>|t|)" = coef(summary(plain))[, 4]); v <- vcov(plain)
  }
  fieller <- \(b1, b2, v11, v12, v22, t) { r <- sort(Re(polyroot(c(b1^2 - t^2 * v11, 4 * (b1 * b2 - t^2 * v12), 4 * (b2^2 - t^2 * v22))))); if (b2^2 > t^2 * v22) r else NULL }
  model <- fieller(b[2], b[3], v[2, 2], v[2, 3], v[3, 3], qt((1 + level) / 2, co[3, "df"]))
  complete <- all(table(d$taster, d$dose) == 1)
  own <- NULL
  if (complete) { B <- t(sapply(split(d, d$taster), \(x) coef(lm(score ~ dose + I(dose^2), x)))); S <- cov(B) / nrow(B); m <- colMeans(B)
    own <- fieller(m[2], m[3], S[2, 2], S[2, 3], S[3, 3], qt((1 + level) / 2, nrow(B) - 1)) }
  m <- length(unique(d$dose)); lof <- NULL
  if (m > 3 && flat) { a <- anova(plain, lm(score ~ factor(dose), d)); lof <- list(F = a[2, "F"], df1 = a[2, "Df"], df2 = a[2, "Res.Df"], p = a[2, "Pr(>F)"]) }
  if (m > 3 && !flat) { full <- suppressMessages(lmer(score ~ dose + I(dose^2) + factor(dose) + (1 | taster), d)); a <- anova(full, type = 1); a <- a[nrow(a), ]; lof <- list(F = a[["F value"]], df1 = a[["NumDF"]], df2 = a[["DenDF"]], p = a[["Pr(>F)"]]) }
  list(rows = d, coefficients = list(estimate = unname(co[, 1]), se = unname(co[, 2]), df = unname(co[, "df"]), p = unname(co[, "Pr(>|t|)"])),
       variance = as.data.frame(VarCorr(fit))$vcov, optimum = unname(-b[2] / (2 * b[3])), intervalModel = model, interval = own, lackOfFit = lof)
}
make <- function(n, doses, sd_t, sd_e, peak, drop = 0) {
  d <- expand.grid(dose = doses, taster = paste0("t", seq_len(n))); at <- peak + rnorm(n, 0, 1)[as.integer(factor(d$taster))]
  d$score <- round(7 + rnorm(n, 0, sd_t)[as.integer(factor(d$taster))] - 0.15 * (d$dose - at)^2 + rnorm(nrow(d), 0, sd_e), 2); d$taster <- as.character(d$taster)
  if (drop > 0) d[-sample(nrow(d), drop), ] else d
}
cases$dose <- list(dose_case(make(9, c(2, 4, 6, 8, 10), 1, 0.6, 6)), dose_case(make(14, c(0, 3, 5, 8, 10, 12), 0.8, 1, 7, 19)), dose_case(make(8, c(1, 2, 4), 1, 0.3, 2.4, 3)))

## Repeated panels
meta_case <- function(y, se, level = 95) {
  one <- \(m) { z <- rma(y, sei = se, method = m, level = level, control = list(threshold = 1e-12, maxiter = 1000)); list(estimate = c(z$beta), se = z$se, interval = c(z$ci.lb, z$ci.ub), tauSquared = z$tau2, Q = z$QE, p = z$QEp,
    knha = { h <- rma(y, sei = se, method = m, test = "adhoc", level = level, control = list(threshold = 1e-12, maxiter = 1000)); c(h$ci.lb, h$ci.ub) },
    prediction = c(z$beta) + c(-1, 1) * qt(1 - (1 - level / 100) / 2, length(y) - 2) * sqrt(z$tau2 + z$se^2)) }
  list(y = y, se = se, level = level / 100, DL = one("DL"), REML = one("REML"))
}
cases$repeats <- list(meta_case(c(0.9, 0.2, 0.6, -0.1, 0.75, 1.4), c(0.3, 0.25, 0.2, 0.35, 0.15, 0.4)), meta_case(c(0.4, 0.42, 0.39, 0.45), c(0.2, 0.3, 0.25, 0.1), 90), meta_case(c(3, -2, 0.5), c(0.5, 0.9, 0.2)))

## Agreement: mean squares from aov, intervals of Shrout and Fleiss through qf
icc_case <- function(m, level = 0.95) {   # tasters x cups
  k <- nrow(m); n <- ncol(m); d <- data.frame(y = c(m), taster = factor(c(row(m))), cup = factor(c(col(m))))
  a <- anova(aov(y ~ cup + taster, d)); B <- a[1, 3]; J <- a[2, 3]; E <- a[3, 3]; W <- (a[2, 2] + a[3, 2]) / (a[2, 1] + a[3, 1])
  al <- 1 - (1 - level) / 2; F1 <- B / W; F3 <- B / E; d1 <- n - 1; dw <- n * (k - 1); de <- (n - 1) * (k - 1)
  L1 <- F1 / qf(al, d1, dw); U1 <- F1 * qf(al, dw, d1); L3 <- F3 / qf(al, d1, de); U3 <- F3 * qf(al, de, d1)
  i2 <- (B - E) / (B + (k - 1) * E + k * (J - E) / n); Fj <- J / E
  vn <- (k - 1) * (n - 1) * (k * i2 * Fj + n * (1 + (k - 1) * i2) - k * i2)^2; vd <- (n - 1) * k^2 * i2^2 * Fj^2 + (n * (1 + (k - 1) * i2) - k * i2)^2; v <- vn / vd
  FU <- qf(al, d1, v); FL <- qf(al, v, d1)
  l2 <- n * (B - FU * E) / (FU * (k * J + (k * n - k - n) * E) + n * B); u2 <- n * (FL * B - E) / (k * J + (k * n - k - n) * E + n * FL * B)
  list(scores = m, level = level, estimate = c((B - W) / (B + (k - 1) * W), i2, (B - E) / (B + (k - 1) * E), (B - W) / B, (B - E) / (B + (J - E) / n), (B - E) / B),
    p = c(pf(F1, d1, dw, lower.tail = FALSE), pf(F3, d1, de, lower.tail = FALSE)),
    low = c((L1 - 1) / (L1 + k - 1), l2, (L3 - 1) / (L3 + k - 1), 1 - 1 / L1, l2 * k / (1 + l2 * (k - 1)), 1 - 1 / L3),
    high = c((U1 - 1) / (U1 + k - 1), u2, (U3 - 1) / (U3 + k - 1), 1 - 1 / U1, u2 * k / (1 + u2 * (k - 1)), 1 - 1 / U3),
    kendallW = unname(friedman.test(m)$statistic) / (k * (n - 1)),
    correlation = sapply(seq_len(k), \(i) cor(m[i, ], colMeans(m[-i, , drop = FALSE]))), sd = apply(m, 1, sd))
}
base <- rnorm(6, 5, 1.5)
cases$agreement <- list(icc_case(round(t(sapply(1:5, \(i) base + rnorm(6) + rnorm(1, 0, 1.5))), 1)), icc_case(matrix(sample(1:9, 24, TRUE), 4, 6), 0.9))
rep_scores <- round(rnorm(12, rep(c(4, 6, 7, 5), each = 3), 1), 1)
cases$repeatsF <- list(scores = rep_scores, cup = rep(1:4, each = 3), F = anova(lm(rep_scores ~ factor(rep(1:4, each = 3))))[1, "F value"])

versions <- sapply(c("jsonlite", "MASS", "metafor", "survival", "lmerTest", "lme4", "gtools"), \(p) as.character(packageVersion(p)))
write(toJSON(list(source = "constructed cases; friedman.test, binom.test, t.test, coxph, glm, lmer with lmerTest, rma, aov, and counting by brute force",
  page = NA, tool = R.version.string, versions = as.list(versions), script = "test/reference/make/ranks-and-choices.R", made = "2026-11-25",
  tolerance = "1e-9 for closed forms and counts; 1e-6 for iterative fits", cases = cases), auto_unbox = TRUE, digits = NA, na = "null", null = "null"), "test/reference/data/ranks-and-choices.json")
