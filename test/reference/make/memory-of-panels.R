# Three invented panels of the same two cups (every taster scored both), and what R makes of them together.
# Run:  Rscript test/reference/make/memory-of-panels.R > test/reference/data/memory-of-panels.json
suppressMessages(library(metafor))
panels <- list(
  list(A = c(5, 4, 6, 5, 7, 3, 5, 6), B = c(7, 6, 7, 8, 8, 5, 7, 8)),
  list(A = c(6, 5, 7, 4, 6, 5, 8, 6), B = c(6, 7, 7, 6, 7, 5, 8, 8)),
  list(A = c(4, 6, 5, 7, 5, 6, 3, 5), B = c(5, 6, 7, 7, 4, 8, 4, 7))
)
num <- function(x) format(unname(x), digits = 17)
tests <- lapply(panels, function(p) t.test(p$A, p$B, paired = TRUE))
d <- sapply(tests, function(t) unname(t$estimate)); se <- sapply(tests, function(t) t$stderr)
# test = "adhoc": Hartung and Knapp's standard error, never smaller than the one without it.
together <- function(k) rma(yi = d[1:k], sei = se[1:k], method = "REML", test = "adhoc", control = list(threshold = 1e-12, maxiter = 1000))
two <- together(2); three <- together(3)
# Where a further panel would lie: t on k - 2 degrees of freedom and the error without the factor (Higgins et al. 2009).
plain <- rma(yi = d, sei = se, method = "REML", control = list(threshold = 1e-12, maxiter = 1000))
reach <- qt(0.975, 1) * sqrt(plain$tau2 + plain$se^2)
cat("{\n")
cat(' "source": "invented scores; computed by R t.test(paired), metafor rma(REML, adhoc)",\n')
cat(sprintf(' "versions": "R %s, metafor %s",\n', getRversion(), packageVersion("metafor")))
cat(' "script": "test/reference/make/memory-of-panels.R",\n "tolerance": 1e-6,\n "panels": [\n')
for (i in 1:3) cat(sprintf('  {"A": [%s], "B": [%s], "difference": %s, "low": %s, "high": %s}%s\n',
  paste(panels[[i]]$A, collapse = ","), paste(panels[[i]]$B, collapse = ","), num(d[i]), num(tests[[i]]$conf.int[1]), num(tests[[i]]$conf.int[2]), if (i < 3) "," else ""))
cat(sprintf(' ],\n "two": {"difference": %s, "interval": [%s, %s]},\n', num(c(two$beta)), num(two$ci.lb), num(two$ci.ub)))
cat(sprintf(' "three": {"difference": %s, "interval": [%s, %s], "next": [%s, %s]}\n}\n', num(c(three$beta)), num(three$ci.lb), num(three$ci.ub),
  num(c(plain$beta) - reach), num(c(plain$beta) + reach)))
