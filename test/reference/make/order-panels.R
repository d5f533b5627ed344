# Panels in which everybody puts all cups in order. First how often the best of K stands above every other: R's own panels, each
# order drawn stage by stage (sample without replacement, weight w for the best: Plackett and Luce), read by Friedman's chi-squared and
# by binom.test of every pair after p.adjust (Holm). Then constructed panels: friedman.test, its exact p from every order of every
# taster (distribution of the rank sums, one taster after the other), binom.test, p.adjust.
# Rscript order-panels.R > ../data/order-panels.json     (two minutes)
alone <- function(panels, n, k, share) {
  w <- c(share / (1 - share), rep(1, k - 1))
  pairs <- combn(k, 2)
  sign <- sapply(0:n, function(x) binom.test(x, n, 0.5)$p.value)
  found <- wrong <- differ <- 0
  for (panel in 1:panels) {
    place <- t(replicate(n, order(sample(k, prob = w))))
    s <- colSums(place)
    chi <- 12 * sum((s - n * (k + 1) / 2)^2) / (n * k * (k + 1))
    if (pchisq(chi, k - 1, lower.tail = FALSE) > 0.05) next
    differ <- differ + 1
    liked <- apply(pairs, 2, function(ab) sum(place[, ab[1]] < place[, ab[2]]))
    told <- p.adjust(sign[liked + 1], "holm") <= 0.05
    best <- pairs[1, ] == 1
    found <- found + all(told[best] & liked[best] > n / 2)
    wrong <- wrong + any(told[best] & liked[best] < n / 2)
  }
  c(found, wrong, differ) / panels
}
exact <- function(place) {
  n <- nrow(place); k <- ncol(place)
  orders <- as.matrix(expand.grid(rep(list(1:k), k)))
  orders <- orders[apply(orders, 1, function(o) length(unique(o)) == k), ]
  sums <- matrix(0, 1, k); ways <- 1
  for (i in 1:n) {
    all <- do.call(rbind, lapply(seq_len(nrow(orders)), function(o) sweep(sums, 2, orders[o, ], "+")))
    weight <- rep(ways, nrow(orders)) / nrow(orders)
    key <- apply(t(apply(all, 1, sort)), 1, paste, collapse = " ")
    ways <- tapply(weight, key, sum)
    sums <- do.call(rbind, lapply(strsplit(names(ways), " "), as.numeric))
    ways <- as.numeric(ways)
  }
  far <- rowSums((sums - n * (k + 1) / 2)^2)
  sum(ways[far >= sum((colSums(place) - n * (k + 1) / 2)^2) - 1e-9])
}
set.seed(20261128)
panels <- 20000
grid <- rbind(c(3, 12, 80), c(3, 24, 65), c(3, 24, 80), c(3, 90, 65), c(4, 24, 75), c(4, 60, 70), c(5, 40, 75), c(6, 24, 85), c(6, 60, 75))
power <- apply(grid, 1, function(g) {
  a <- alone(panels, g[2], g[1], g[3] / 100)
  sprintf('{"cups":%d,"tasters":%d,"share":%.2f,"alone":%.5f,"misled":%.5f,"differ":%.5f}', g[1], g[2], g[3] / 100, a[1], a[2], a[3])
})
# orders as columns of letters, and how many tasters gave each
held <- list(
  alone = list(k = 3, orders = c("BAC", "BCA", "ABC"), times = c(6, 5, 1)),
  some = list(k = 4, orders = c("BACD", "ABDC", "BADC", "ACBD"), times = c(4, 4, 3, 1)),
  none = list(k = 3, orders = c("BAC", "CAB", "ABC", "ACB"), times = c(3, 3, 2, 1)),
  pairless = list(k = 3, orders = c("ABC", "BAC", "CAB"), times = c(4, 3, 1))
)
num <- function(x) paste(sprintf("%.15g", x), collapse = ",")
panelText <- sapply(names(held), function(name) {
  h <- held[[name]]
  letters <- strsplit(rep(h$orders, h$times), "")
  cups <- LETTERS[1:h$k]
  place <- t(sapply(letters, function(o) match(cups, o)))
  pairs <- combn(h$k, 2)
  liked <- apply(pairs, 2, function(ab) sum(place[, ab[1]] < place[, ab[2]]))
  sign <- sapply(liked, function(x) binom.test(x, nrow(place), 0.5)$p.value)
  f <- friedman.test(place)
  sprintf('"%s":{"orders":[%s],"times":[%s],"cups":%d,"chiSquared":%s,"p":%s,"pExact":%s,"firsts":[%s],"meanRank":[%s],"liked":[%s],"sign":[%s],"holm":[%s]}',
    name, paste(sprintf('"%s"', h$orders), collapse = ","), num(h$times), h$k, num(f$statistic), num(f$p.value), num(exact(place)),
    num(colSums(place == 1)), num(colMeans(place)), num(liked), num(sign), num(p.adjust(sign, "holm")))
})
cat(sprintf('{"made":"make/order-panels.R, R %s","panels":%d,"power":[\n%s\n],"held":{\n%s\n}}\n',
  getRversion(), panels, paste(power, collapse = ",\n"), paste(panelText, collapse = ",\n")))
