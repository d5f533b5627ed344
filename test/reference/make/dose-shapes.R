# The shape of liking over a dose: by each taster's own quadratic term and straight line (t.test), or, where somebody missed a dose, by
# clubSandwich's CR2 on lmer's quadratic term and on the slope of a straight line. Rscript dose-shapes.R > ../data/dose-shapes.json
suppressMessages({ library(lme4); library(clubSandwich) })
shape <- function(rows) {
  doses <- sort(unique(rows$dose)); low <- min(doses); high <- max(doses)
  full <- suppressMessages(lmer(score ~ dose + I(dose^2) + (1 | taster), rows, control = lmerControl(check.conv.singular = "ignore")))
  b <- fixef(full); turn <- -b[2] / (2 * b[3])
  if (all(table(rows$taster, rows$dose) > 0)) {
    own <- t(sapply(split(rows, rows$taster), function(d) c(coef(lm(score ~ dose + I(dose^2), d))[3], coef(lm(score ~ dose, d))[2])))
    bend <- t.test(own[, 1]); slope <- t.test(own[, 2])
    r <- c(bend$estimate, bend$p.value, slope$estimate, slope$p.value)
  } else {
    line <- suppressMessages(lmer(score ~ dose + (1 | taster), rows, control = lmerControl(check.conv.singular = "ignore")))
    one <- function(m, w) { t <- linear_contrast(m, vcov = vcovCR(m, cluster = rows$taster, type = "CR2"), contrasts = matrix(w, 1), test = "Satterthwaite", p_values = TRUE); c(t$Est, t$p_val) }
    r <- c(one(full, c(0, 0, 1)), one(line, c(0, 1)))
  }
  word <- if (r[2] <= 0.05 && turn >= low && turn <= high) { if (r[1] < 0) "peak" else "trough" } else if (r[4] > 0.05) "flat" else if (r[3] < 0) "falling" else "rising"
  sprintf('{"rows":[%s],"bendP":%.10f,"slopeP":%.10f,"shape":"%s"}', paste(sprintf('["%s",%g,%d]', rows$taster, rows$dose, rows$score), collapse = ","), r[2], r[4], word)
}
set.seed(31)
panel <- function(n, doses, height, sd, slopes, gap) {
  rows <- expand.grid(taster = paste0("t", 1:n), dose = doses, stringsAsFactors = FALSE)
  own <- rnorm(n); tilt <- slopes * rnorm(n)
  i <- match(rows$taster, paste0("t", 1:n))
  rows$score <- pmin(9, pmax(1, round(height(rows$dose) + own[i] + tilt[i] * (rows$dose - mean(doses)) + sd * rnorm(nrow(rows)))))
  if (gap > 0) rows <- rows[runif(nrow(rows)) >= gap, ]
  rows
}
bowl <- function(x) 7 - 0.25 * (x - 5)^2
cases <- list()
for (gap in c(0, 0.15)) cases <- c(cases, list(panel(14, c(2, 4, 6, 8), bowl, 1, 0, gap), panel(14, c(2, 4, 6, 8), function(x) 4 + 0.25 * (x - 5)^2, 1, 0, gap),
  panel(14, c(2, 4, 6, 8), function(x) 3 + 0.5 * x, 1, 0.1, gap), panel(14, c(2, 4, 6, 8), function(x) 8 - 0.4 * x, 1, 0.1, gap), panel(14, c(2, 4, 6, 8), function(x) 6 + 0 * x, 1, 0.6, gap), panel(10, c(1, 2, 4), function(x) 6 + 0 * x, 1.2, 0.5, gap)))
cat(sprintf('{"made":"make/dose-shapes.R, R %s, lme4 %s, clubSandwich %s","cases":[\n%s\n]}\n', getRversion(), packageVersion("lme4"), packageVersion("clubSandwich"), paste(sapply(cases, shape), collapse = ",\n")))
