# Expected numbers of panels that ask whether two cups can be told apart. Rscript told-apart.R; R 4.2, base.
one <- function(x, n, g) {
  ci <- binom.test(x, n)$conf.int
  cat(sprintf("%d of %d against %.4f: p %.10f, telling %.10f, %.10f to %.10f, critical %d\n", x, n, g,
    binom.test(x, n, g, alternative = "greater")$p.value, (x / n - g) / (1 - g), (ci[1] - g) / (1 - g), (ci[2] - g) / (1 - g),
    qbinom(0.95, n, g) + 1))
}
for (x in c(9, 5, 4)) one(x, 12, 1/3)
for (x in c(11, 6)) one(x, 12, 1/2)
alike <- function(x, n, g, bound) cat(sprintf("alike %d of %d below %.2f: p %.10f, upper %.10f, most %d\n", x, n, bound,
  pbinom(x, n, g + (1 - g) * bound), (qbeta(0.95, x + 1, n - x) - g) / (1 - g), qbinom(0.05, n, g + (1 - g) * bound) - 1))
alike(4, 12, 1/3, .6); alike(7, 12, 1/3, .6); alike(1, 4, 1/3, .3)
right <- c(2, 2, 2, 1, 0, 2, 1, 2); s <- (right / 2 - 1/3) * 1.5
cat(sprintf("several: %d of 16, p %.10f, mean %.10f, %.10f to %.10f\n", sum(right),
  binom.test(sum(right), 16, 1/3, alternative = "greater")$p.value, mean(s), t.test(s)$conf.int[1], t.test(s)$conf.int[2]))
cat(sprintf("two-afc 11 of 12: d' %.10f\n", sqrt(2) * qnorm(11 / 12)))
