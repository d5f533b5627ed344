# Wald's test of guessing, and of preference, looked at after each sitting: exact figures by following every count. And difference tests
# with several answers from each taster: binom.test over all answers, t.test of the tasters' own shares.
# Rscript looks-and-repeats.R > ../data/looks-and-repeats.json
num <- function(x) format(x, digits = 17)
one <- function(p0, p1, alpha, beta, max, looks) {
  D <- log(p1 * (1 - p0) / (p0 * (1 - p1)))
  s <- log((1 - p0) / (1 - p1)) / D; lo <- log(beta / (1 - alpha)) / D; up <- log((1 - beta) / alpha) / D
  run <- function(p) {
    prob <- c(1, rep(0, max)); shown <- 0; avg <- 0
    for (n in 1:max) {
      avg <- avg + sum(prob)
      prob <- c(prob[1] * (1 - p), prob[-1] * (1 - p) + prob[-(max + 1)] * p)
      if (n %in% looks) for (x in 0:n) {
        if (x >= up + s * n - 1e-9) { shown <- shown + prob[x + 1]; prob[x + 1] <- 0 }
        else if (x <= lo + s * n + 1e-9) prob[x + 1] <- 0
      }
    }
    c(shown, avg)
  }
  a <- run(p0); b <- run(p1)
  sprintf('{"guessing":%s,"p1":%s,"alpha":%s,"beta":%s,"max":%d,"looks":[%s],"slope":%s,"lower":%s,"upper":%s,"falseAlarm":%s,"power":%s,"average":%s,"averageAtP1":%s}',
    num(p0), num(p1), alpha, beta, max, paste(looks, collapse = ","), num(s), num(lo), num(up), num(a[1]), num(b[1]), num(a[2]), num(b[2]))
}
two <- function(p1, alpha, beta, max, looks) {   # two one-sided tests at alpha / 2, states followed by count and by both tests
  D <- log(p1 / (1 - p1)); s <- -log(2 * (1 - p1)) / D; lo <- log(beta / (1 - alpha / 2)) / D; up <- log((1 - beta) / (alpha / 2)) / D
  look <- function(x, n) if (x >= up + s * n - 1e-9) 1 else if (x <= lo + s * n + 1e-9) -1 else 0
  run <- function(p) {
    st <- data.frame(x = 0, a = 0, b = 0, w = 1); A <- B <- avg <- 0
    for (n in 1:max) {
      if (nrow(st) == 0) break
      avg <- avg + sum(st$w)
      st <- rbind(transform(st, x = x + 1, w = w * p), transform(st, w = w * (1 - p)))
      if (n %in% looks) {
        st$a <- mapply(function(a, x) if (a == 0) look(x, n) else a, st$a, st$x)
        st$b <- mapply(function(b, x) if (b == 0) look(n - x, n) else b, st$b, st$x)
      }
      A <- A + sum(st$w[st$a == 1]); B <- B + sum(st$w[st$a != 1 & st$b == 1])
      st <- st[st$a != 1 & st$b != 1 & !(st$a == -1 & st$b == -1), ]
      if (nrow(st)) st <- aggregate(w ~ x + a + b, st, sum)
    }
    c(A, B, avg)
  }
  h <- run(0.5); t <- run(p1)
  sprintf('{"p1":%s,"alpha":%s,"beta":%s,"max":%d,"looks":[%s],"falseAlarm":%s,"power":%s,"average":%s,"averageAtP1":%s}',
    p1, alpha, beta, max, paste(looks, collapse = ","), num(h[1] + h[2]), num(t[1]), num(h[3]), num(t[3]))
}
repeats <- function(g, name, right, each, cut) {
  n <- length(right); k <- sum(right)
  d <- (right / each - g) / (1 - g); ci <- t.test(d)$conf.int; if (cut) ci <- pmax(0, ci)
  sprintf('{"protocol":"%s","right":[%s],"each":%d,"p":%s,"estimate":%s,"low":%s,"high":%s}', name, paste(right, collapse = ","), each,
    num(binom.test(k, n * each, g, "greater")$p.value), num(if (cut) max(0, (k / n / each - g) / (1 - g)) else (k / n / each - g) / (1 - g)), num(ci[1]), num(ci[2]))
}
g3 <- 1 / 3
cat('{"made":"make/looks-and-repeats.R, R', as.character(getRversion()), '",\n"guessing":[\n')
cat(paste(c(one(g3, g3 + 0.3 * 2 / 3, 0.05, 0.1, 60, 1:60), one(g3, g3 + 0.3 * 2 / 3, 0.05, 0.1, 60, c(12, 24, 36, 60)), one(0.5, 0.75, 0.05, 0.2, 40, c(10, 20, 40)), one(0.5, 0.7, 0.1, 0.1, 30, c(10, 20))), collapse = ",\n"))
cat('\n],\n"preference":[\n'); cat(paste(c(two(0.7, 0.05, 0.1, 60, c(12, 24, 36, 60)), two(0.65, 0.1, 0.2, 50, c(10, 30)), two(0.7, 0.05, 0.1, 40, 1:40)), collapse = ",\n"))
cat('\n],\n"repeats":[\n'); cat(paste(c(repeats(g3, "triangle", c(3, 2, 1, 3, 0, 2, 3, 1, 2, 2), 3, TRUE), repeats(0.5, "two-afc", c(2, 1, 0, 2, 1, 1, 2, 0), 2, FALSE), repeats(g3, "tetrad", c(1, 0, 1, 2, 0, 1), 4, TRUE)), collapse = ",\n")); cat('\n]}\n')
