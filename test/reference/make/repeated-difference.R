# Power of the exact test over all answers where a share pd of tasters is right each time and the others guess each time,
# by counting who can tell: given m of n who can, X = m k + Binomial((n - m) k, g). Rscript repeated-difference.R; R 4.2, base.
power <- function(n, k, g, pd, alpha = 0.05) {
  N <- n * k
  crit <- qbinom(1 - alpha, N, g) + 1
  while (crit > 0 && pbinom(crit - 2, N, g, lower.tail = FALSE) <= alpha) crit <- crit - 1
  m <- 0:n
  c(crit, sum(dbinom(m, n, pd) * pbinom(crit - 1 - m * k, (n - m) * k, g, lower.tail = FALSE)))
}
for (case in list(c(24, 1, 1/3, .3), c(24, 2, 1/3, .3), c(12, 3, 1/3, .5), c(20, 2, 1/2, .4), c(30, 3, 1/2, .2), c(18, 2, 1/3, 0))) {
  found <- power(case[1], case[2], case[3], case[4])
  cat(sprintf("n=%d k=%d g=%.4f pd=%.1f crit=%d power=%.10f\n", case[1], case[2], case[3], case[4], found[1], found[2]))
}
smallest <- function(k, g, pd) { n <- 1; while (power(n, k, g, pd)[2] < .8) n <- n + 1; n }
cat(sprintf("smallest triangle pd .3: k=1 %d, k=2 %d, k=3 %d; duo-trio pd .4 k=2 %d\n",
  smallest(1, 1/3, .3), smallest(2, 1/3, .3), smallest(3, 1/3, .3), smallest(2, 1/2, .4)))
