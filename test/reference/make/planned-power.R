# Power of one planned claim: paired t test on the tasters' own differences, alpha divided by the comparisons of the plan.
# R's own power.t.test (base stats). Rscript planned-power.R > ../data/planned-power.json
options(digits = 17)
pairs_of <- function(plan, k) switch(plan, all = k * (k - 1) / 2, against = k - 1, pair = 1)
smallest <- function(power_at, power) { n <- 2; while (power_at(n) < power) n <- n + 1; n }
rows <- list()
for (plan in c("all", "against", "pair")) for (k in c(2, 3, 4, 6)) for (s in c(1.2, 1.5)) for (d in c(0.7, 1, 2)) {
  alpha <- 0.05 / pairs_of(plan, k)
  at <- function(n) power.t.test(n = n, delta = d, sd = s * sqrt(2), sig.level = alpha, type = "paired",
                                 alternative = "two.sided", strict = TRUE)$power
  n <- smallest(at, 0.8)
  rows[[length(rows) + 1]] <- sprintf('{"plan":"%s","cups":%d,"sd":%.1f,"difference":%.1f,"n":%d,"power":%.15f,"powerAt24":%.15f}',
                                      plan, k, s, d, n, at(n), at(24))
}
# not worse by a margin of 0.5: one-sided, and the same divided by a plan's pairs
one <- list()
for (plan in c("all", "against", "pair")) for (k in c(2, 4)) for (truth in c(0, 0.2)) {
  alpha <- 0.05 / pairs_of(plan, k)
  at <- function(n) power.t.test(n = n, delta = 0.5 + truth, sd = 1.5 * sqrt(2), sig.level = alpha, type = "paired",
                                 alternative = "one.sided", strict = TRUE)$power
  n <- smallest(at, 0.8)
  one[[length(one) + 1]] <- sprintf('{"plan":"%s","cups":%d,"truth":%.1f,"n":%d,"power":%.15f}', plan, k, truth, n, at(n))
}
cat('{"made":"make/planned-power.R, R', paste(R.version$major, R.version$minor, sep = "."), '",\n"better":[\n',
    paste(unlist(rows), collapse = ",\n"), '\n],\n"notWorse":[\n', paste(unlist(one), collapse = ",\n"), "\n]}\n")
