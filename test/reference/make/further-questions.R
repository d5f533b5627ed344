# What further questions of an invented panel of sixteen tasters and three cups say: Welch's drops and Holm over all of them,
# Cochran's Q of each word and Holm over the words. Base R alone.
#   Rscript test/reference/make/further-questions.R > test/reference/data/further-questions.json
set.seed(20261128)
n <- 16
cups <- c("A", "B", "C")
jar <- list(A = pmin(5, pmax(1, round(rnorm(n, 1.9, 0.8)))), B = pmin(5, pmax(1, round(rnorm(n, 3, 0.6)))),
            C = pmin(5, pmax(1, round(rnorm(n, 3.9, 0.8)))))
liking <- lapply(jar, function(x) pmin(9, pmax(1, round(7.4 - 1.6 * abs(x - 3) + rnorm(n, 0, 0.9)))))
strength <- lapply(c(A = 30, B = 50, C = 75), function(m) pmin(100, pmax(0, round(rnorm(n, m, 12)))))
words <- c("nutty", "floral", "flat")
p <- rbind(A = c(.3, .1, .7), B = c(.4, .8, .1), C = c(.35, .5, .15))
ticks <- lapply(cups, function(cup) matrix(rbinom(n * 3, 1, rep(p[cup, ], each = n)), n)); names(ticks) <- cups
num <- function(x) if (length(x) == 0 || is.na(x)) "null" else format(x, digits = 15)
list_of <- function(x) paste0("[", paste(sapply(x, num), collapse = ","), "]")
by_cup <- function(f) paste0("{", paste(sprintf('"%s":%s', cups, sapply(cups, f)), collapse = ","), "}")
side <- function(cup, from, to) {
  right <- liking[[cup]][jar[[cup]] == 3]; of <- liking[[cup]][jar[[cup]] >= from & jar[[cup]] <= to]
  if (length(right) < 2 || length(of) < 2) return(NULL)
  t <- t.test(right, of)
  list(n = length(of), share = length(of) / n, drop = mean(right) - mean(of), low = t$conf.int[1], high = t$conf.int[2], p = t$p.value)
}
sides <- list(); for (cup in cups) { sides[[paste0(cup, "-")]] <- side(cup, 1, 2); sides[[paste0(cup, "+")]] <- side(cup, 4, 5) }
adjusted <- p.adjust(sapply(sides, function(s) s$p), "holm")
q_of <- function(w) {
  x <- sapply(cups, function(cup) ticks[[cup]][, w]); k <- 3; G <- colSums(x); L <- rowSums(x)
  q <- (k - 1) * (k * sum(G^2) - sum(G)^2) / (k * sum(L) - sum(L^2)); c(q = q, p = pchisq(q, k - 1, lower.tail = FALSE))
}
qs <- sapply(1:3, q_of)
cat('{\n"jar":', by_cup(function(c) list_of(jar[[c]])), ',\n"liking":', by_cup(function(c) list_of(liking[[c]])),
    ',\n"strength":', by_cup(function(c) list_of(strength[[c]])),
    ',\n"words":["', paste(words, collapse = '","'), '"],\n"ticks":', by_cup(function(c) list_of(ticks[[c]] %*% c(1, 2, 4))),
    ',\n"sides":{', paste(sprintf('"%s":{"n":%d,"share":%s,"drop":%s,"low":%s,"high":%s,"p":%s,"pHolm":%s}', names(sides),
      sapply(sides, function(s) s$n), sapply(sides, function(s) num(s$share)), sapply(sides, function(s) num(s$drop)),
      sapply(sides, function(s) num(s$low)), sapply(sides, function(s) num(s$high)), sapply(sides, function(s) num(s$p)),
      sapply(adjusted, num)), collapse = ","), '},\n"strengthMeans":', by_cup(function(c) num(mean(strength[[c]]))),
    ',\n"Q":', list_of(qs["q", ]), ',\n"p":', list_of(qs["p", ]), "\n}\n", sep = "")
