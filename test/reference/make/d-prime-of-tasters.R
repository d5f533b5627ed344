# The standard error of d-prime where each taster gave several answers: the share right with its error by taster (clubSandwich, CR2,
# of lm(correct ~ 1)), carried over by the delta method, the slope by numerical derivative of the psychometric functions as R integrates
# them; and beside it the cluster bootstrap of the whole: tasters drawn again with all their answers, d-prime of each draw.
# Rscript d-prime-of-tasters.R > ../data/d-prime-of-tasters.json     (two minutes)
suppressMessages(library(clubSandwich))
int <- function(f, a, b) integrate(f, a, b, rel.tol = 1e-12, abs.tol = 1e-14)$value
share <- list(
  "two-afc" = function(d) pnorm(d / sqrt(2)),
  "three-afc" = function(d) int(function(z) dnorm(z - d) * pnorm(z)^2, -12, 12 + d),
  "duo-trio" = function(d) { a <- pnorm(d / sqrt(2)); b <- pnorm(d / sqrt(6)); 1 - a - b + 2 * a * b },
  "triangle" = function(d) 2 * int(function(z) (pnorm(-z * sqrt(3) + d * sqrt(2 / 3)) + pnorm(-z * sqrt(3) - d * sqrt(2 / 3))) * dnorm(z), 0, 12),
  "tetrad" = function(d) 1 - 2 * int(function(z) dnorm(z) * (2 * pnorm(z) * pnorm(z - d) - pnorm(z - d)^2), -12, 12))
guess <- c("two-afc" = 1/2, "three-afc" = 1/3, "duo-trio" = 1/2, "triangle" = 1/3, "tetrad" = 1/3)
undirected <- c("duo-trio", "triangle", "tetrad")
dprime <- function(name, p) {
  if (p <= guess[[name]] && name %in% undirected) return(0)
  if (p >= 1 || p <= 0) return(NA)
  uniroot(function(d) share[[name]](d) - p, c(if (name %in% undirected) 0 else -6, 8), tol = 1e-12)$root
}
slope <- function(f, d, h = 1e-2) { # Richardson on central differences: error of order h^6
  c1 <- function(h) (f(d + h) - f(d - h)) / (2 * h)
  (64 * c1(h / 4) - 20 * c1(h / 2) + c1(h)) / 45
}
num <- function(x) format(x, digits = 15)
case <- function(name, right, each, draws) {
  n <- length(right)
  rows <- do.call(rbind, lapply(seq_len(n), function(i) data.frame(taster = i, correct = rep(c(1, 0), c(right[i], each - right[i])))))
  m <- lm(correct ~ 1, rows)
  se <- sqrt(as.numeric(vcovCR(m, cluster = rows$taster, type = "CR2")))
  p <- mean(rows$correct); d <- dprime(name, p)
  known <- new.env()  # few totals come up again and again
  boot <- replicate(draws, { total <- sum(sample(right, replace = TRUE)); key <- as.character(total)
    if (is.null(known[[key]])) known[[key]] <- dprime(name, total / n / each)
    known[[key]] })
  sprintf('{"protocol":"%s","right":[%s],"each":%d,"dPrime":%s,"se":%s,"asIfAlone":%s,"bootstrap":%s}', name, paste(right, collapse = ","), each,
    num(d), num(se / slope(share[[name]], d)), num(sqrt(p * (1 - p) / n / each) / slope(share[[name]], d)), num(sd(boot) * sqrt(n / (n - 1))))
}
set.seed(20261126)
drawn <- function(n, each, a, b, g) { able <- rbeta(n, a, b); rbinom(n, each, g + (1 - g) * able) }  # tasters differ: beta-binomial
draws <- 20000
cat('{"made":"make/d-prime-of-tasters.R, R', as.character(getRversion()), ', clubSandwich', as.character(packageVersion("clubSandwich")), '","draws":', draws, ',"cases":[\n')
cat(paste(c(
  case("triangle", drawn(40, 4, 0.6, 0.8, 1/3), 4, draws), case("tetrad", drawn(60, 3, 0.5, 0.5, 1/3), 3, draws),
  case("duo-trio", drawn(50, 6, 0.7, 0.7, 1/2), 6, draws), case("two-afc", drawn(36, 4, 0.5, 1, 1/2), 4, draws),
  case("three-afc", drawn(48, 2, 1, 1, 1/3), 2, draws), case("two-afc", c(1, 2, 0, 3, 1, 1, 2, 0, 2, 1, 0, 1, 2, 1, 0, 1, 2, 3, 0, 1), 4, draws)), collapse = ",\n"))
cat("\n]}\n")
