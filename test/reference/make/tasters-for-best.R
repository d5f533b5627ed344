# How often does the best of K cups stand alone? R's own panels: scores drawn, rounded and cut, read by paired t intervals that hold
# together by Bonferroni (the CR2 interval where everybody scored every cup), each at least the rounding error 1/sqrt(6n) wide.
# Rscript tasters-for-best.R > ../data/tasters-for-best.json     (two minutes)
on_scale <- function(x, step) { if (step > 0) x[] <- pmin(9, pmax(1, 1 + step * round((x - 1) / step))); x }
share <- function(panels, n, k, s, d, step) {
  m <- k * (k - 1) / 2
  t <- qt(1 - 0.05 / m / 2, n - 1)
  alone <- 0
  for (panel in 1:panels) {
    x <- on_scale(matrix(rnorm(n * k, sd = s), n) + 6 + rnorm(n) + matrix(rep(c(d, rep(0, k - 1)), each = n), n), step)
    e <- x[, 1] - x[, -1, drop = FALSE]
    se <- pmax(apply(e, 2, sd) / sqrt(n), step / sqrt(6 * n))
    alone <- alone + all(colMeans(e) - t * se > 0)
  }
  alone / panels
}
set.seed(20261126)
panels <- 20000
grid <- rbind(c(3, 1.4, 1, 1), c(4, 1.2, 1, 1), c(5, 1.4, 1.5, 1), c(4, 1.4, 3, 1), c(3, 1.2, 0.8, 0))
tasters <- list(c(12, 40, 58), c(24, 48, 60), c(12, 24, 36), c(6, 10, 14), c(30, 60, 90))
rows <- c()
for (i in seq_len(nrow(grid))) for (n in tasters[[i]]) {
  g <- grid[i, ]
  rows <- c(rows, sprintf('{"cups":%d,"sd":%.1f,"difference":%.1f,"step":%d,"tasters":%d,"alone":%.5f}', g[1], g[2], g[3], g[4], n, share(panels, n, g[1], g[2], g[3], g[4])))
}
cat(sprintf('{"made":"make/tasters-for-best.R, R %s","panels":%d,"cases":[\n%s\n]}\n', getRversion(), panels, paste(rows, collapse = ",\n")))
