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
s <- sqrt(v[2])
pw <- function(n) { df <- (n - 1) * 2; d <- 1 / (s * sqrt(2 / n)); q <- qt(1 - 0.05 / 3 / 2, df); pt(q, df, d, lower.tail = FALSE) + pt(-q, df, d) }
n <- 2; while (pw(n) < 0.8) n <- n + 1
cat(sprintf(' ],\n "tastersForOnePoint": %d\n}\n', n))
