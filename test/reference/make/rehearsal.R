# A planned panel rehearsed in R: scores drawn, rounded and cut, read by lmer and clubSandwich's CR2, joint intervals by Bonferroni.
# Rscript rehearsal.R > ../data/rehearsal.json     (some minutes)
suppressMessages({ library(lme4); library(clubSandwich) })
on_scale <- function(x) pmin(9, pmax(1, round(x)))
truth <- function(mean, sd) { b <- seq(1.5, 8.5, 1); sum(1:9 * diff(c(0, pnorm(b, mean, sd), 1))) }
rehearse <- function(panels, n, k, s, d, absent, divide) {
  up <- rep(c(TRUE, FALSE), length.out = n)
  effect <- function(cup, u) (cup == 1) * d + (cup == k) * ifelse(u, divide, -divide)
  means <- sapply(1:k, function(cup) mean(up) * truth(6 + effect(cup, TRUE), sqrt(s^2 + 1)) + mean(!up) * truth(6 + effect(cup, FALSE), sqrt(s^2 + 1)))
  pairs <- combn(k, 2)
  found <- held <- false <- 0
  for (panel in 1:panels) {
    own <- 6 + rnorm(n)
    rows <- do.call(rbind, lapply(1:k, function(cup) data.frame(taster = 1:n, cup = cup, score = on_scale(own + effect(cup, up) + s * rnorm(n)))))
    rows <- rows[runif(nrow(rows)) >= absent, ]
    rows$cup <- factor(rows$cup); rows$taster <- factor(rows$taster)
    m <- suppressMessages(lmer(score ~ 0 + cup + (1 | taster), rows))
    v <- vcovCR(m, cluster = rows$taster, type = "CR2")
    ok <- TRUE; wrong <- FALSE
    for (j in 1:ncol(pairs)) {
      w <- matrix((1:k == pairs[1, j]) - (1:k == pairs[2, j]), nrow = 1)
      t <- linear_contrast(m, vcov = v, contrasts = w, test = "Satterthwaite", level = 1 - 0.05 / ncol(pairs))
      true <- means[pairs[1, j]] - means[pairs[2, j]]
      if (true < t$CI_L || true > t$CI_U) ok <- FALSE
      if ((t$CI_L > 0 && true <= 0) || (t$CI_U < 0 && true >= 0)) wrong <- TRUE
      if (j == 1 && t$CI_L > 0) found <- found + 1
    }
    held <- held + ok; false <- false + wrong
  }
  c(found, held, false) / panels
}
set.seed(20261126)
cases <- list(c(600, 24, 4, 1.2, 1.2, 0, 0), c(600, 24, 4, 1.2, 1.2, 0.2, 0), c(600, 24, 4, 1.2, 1.2, 0, 2), c(600, 16, 3, 1.2, 1.5, 0.15, 2))
cat(sprintf('{"made":"make/rehearsal.R, R %s, lme4 %s, clubSandwich %s","cases":[\n', getRversion(), packageVersion("lme4"), packageVersion("clubSandwich")))
cat(paste(sapply(cases, function(c) { r <- do.call(rehearse, as.list(c))
  sprintf('{"panels":%d,"tasters":%d,"cups":%d,"sd":%.1f,"difference":%.1f,"absent":%.2f,"divide":%.1f,"found":%.5f,"coverage":%.5f,"anyFalse":%.5f}', c[1], c[2], c[3], c[4], c[5], c[6], c[7], r[1], r[2], r[3]) }), collapse = ",\n"))
cat("\n]}\n")
