# An invented panel of eight tasters and three cups on nine points; what R makes of it.
# Run:  Rscript test/reference/make/panel-of-eight.R > test/reference/data/panel-of-eight.json
scores <- list(
  A = c(5, 4, 6, 5, 7, 3, 5, 6),
  B = c(7, 6, 7, 8, 8, 5, 7, 8),
  C = c(6, 4, 7, 5, 8, 5, 6, 5)
)
suppressMessages({library(lme4); library(lmerTest)})
long <- data.frame(
  taster = factor(rep(1:8, 3)), cup = factor(rep(names(scores), each = 8)), score = unlist(scores)
)
fit <- lmer(score ~ cup + (1 | taster), long)
pairs <- list(c("A", "B"), c("A", "C"), c("B", "C"))
tests <- lapply(pairs, function(p) t.test(scores[[p[1]]], scores[[p[2]]], paired = TRUE))
holm <- p.adjust(sapply(tests, function(t) t$p.value), "holm")
num <- function(x) format(x, digits = 17)
cat("{\n")
cat(' "source": "invented scores; computed by R t.test(paired), p.adjust(holm), lmerTest",\n')
cat(sprintf(' "versions": "R %s, lme4 %s",\n', getRversion(), packageVersion("lme4")))
cat(' "script": "test/reference/make/panel-of-eight.R",\n "tolerance": 1e-6,\n')
cat(sprintf(' "scores": {"A": [%s], "B": [%s], "C": [%s]},\n', paste(scores$A, collapse=","), paste(scores$B, collapse=","), paste(scores$C, collapse=",")))
cat(sprintf(' "means": {"A": %s, "B": %s, "C": %s},\n', num(mean(scores$A)), num(mean(scores$B)), num(mean(scores$C))))
v <- as.data.frame(VarCorr(fit))$vcov
cat(sprintf(' "variance": {"taster": %s, "residual": %s},\n "pairs": [\n', num(v[1]), num(v[2])))
for (i in 1:3) cat(sprintf('  {"a": "%s", "b": "%s", "difference": %s, "low": %s, "high": %s, "pHolm": %s}%s\n',
  pairs[[i]][1], pairs[[i]][2], num(unname(tests[[i]]$estimate)), num(tests[[i]]$conf.int[1]), num(tests[[i]]$conf.int[2]), num(holm[i]), if (i < 3) "," else ""))
cat(' ],\n')
# Joint intervals: each pair's own t interval at 1 - alpha / m; m = 3 (every pair), 2 (against one cup), 1 (a single pair).
joint <- function(level, m) sapply(pairs, function(p) t.test(scores[[p[1]]], scores[[p[2]]], paired = TRUE, conf.level = 1 - (1 - level) / m)$conf.int)
for (m in 1:3) for (level in c(0.95, 0.9)) {
  j <- joint(level, m)
  cat(sprintf(' "joint%d%s": [[%s, %s], [%s, %s], [%s, %s]],\n', round(100 * level), c("Pair", "Against", "All")[m],
    num(j[1, 1]), num(j[2, 1]), num(j[1, 2]), num(j[2, 2]), num(j[1, 3]), num(j[2, 3])))
}
# The smallest n of a paired t test on n - 1 degrees of freedom, alpha over three pairs, by R's own power.t.test; and at the ends
# of a 90 % interval of the spread on 14 degrees of freedom.
smallest <- function(s) { n <- 2; while (power.t.test(n = n, delta = 1, sd = s * sqrt(2), sig.level = 0.05 / 3, type = "paired", strict = TRUE)$power < 0.8) n <- n + 1; n }
s <- sqrt(v[2]); end <- function(p) smallest(s * sqrt(14 / qchisq(p, 14)))
cat(sprintf(' "tastersForOnePoint": %d,\n "tastersForOnePointBetween": [%d, %d]\n}\n', smallest(s), end(0.95), end(0.05)))
