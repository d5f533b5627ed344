# Mean drops where tasters gave several answers: lm on the group's means, clubSandwich's CR2 by taster, Satterthwaite.
# Rscript clustered-drops.R > ../data/clustered-drops.json
suppressMessages(library(clubSandwich))
set.seed(19)
one <- function(n, cups) {
  rows <- expand.grid(taster = 1:n, cup = 1:cups)
  own <- rnorm(n)
  rows$attribute <- pmin(5, pmax(1, round(3 + 0.8 * rnorm(nrow(rows)) + 0.4 * (rows$cup - 2))))
  rows$liking <- pmin(9, pmax(1, round(6.5 + own[rows$taster] - abs(rows$attribute - 3) * 1.2 + rnorm(nrow(rows)))))
  rows <- rows[runif(nrow(rows)) > 0.1, ]
  drop <- function(side) {
    d <- rows[rows$attribute == 3 | rows$attribute %in% side, ]
    d$right <- as.numeric(d$attribute == 3)
    m <- lm(liking ~ right, d)
    t <- linear_contrast(m, vcov = vcovCR(m, cluster = d$taster, type = "CR2"), contrasts = matrix(c(0, 1), 1), test = "Satterthwaite", p_values = TRUE)
    sprintf('{"n":%d,"meanDrop":%.12f,"se":%.12f,"df":%.10f,"low":%.12f,"high":%.12f,"p":%.12f}', sum(d$right == 0), t$Est, t$SE, t$df, t$CI_L, t$CI_U, t$p_val)
  }
  sprintf('{"rows":[%s],"tooLittle":%s,"tooMuch":%s}',
    paste(sprintf('["%d",%d,%d]', rows$taster, rows$attribute, rows$liking), collapse = ","), drop(1:2), drop(4:5))
}
cat(sprintf('{"made":"make/clustered-drops.R, R %s, clubSandwich %s","cases":[\n%s\n]}\n', getRversion(), packageVersion("clubSandwich"),
  paste(c(one(8, 3), one(20, 2), one(12, 5), one(30, 4)), collapse = ",\n")))
