# What stands in for what, by quadratic programming: R's quadprog (Goldfarb and Idnani's dual method), not our active sets.
# Run from the root of the repository: Rscript test/reference/make/instead-of.R
# min sum(((x'A - t)/tolerance)^2) over x >= 0 and sum(x) <= 1 where water may fill up, sum(x) = 1 where not.
# Rows are fat, sugars, solids (100 - water) and protein, g per 100 g: USDA Standard Reference as printed in
# usda-sr-composition.test.ts, and makeups drawn here.
suppressMessages({ library(quadprog); library(jsonlite) })
tolerance <- c(fat = 0.5, sugars = 0.5, solids = 1, protein = 0.5)
row <- function(water, protein, fat, sugars) c(fat = fat, sugars = sugars, solids = 100 - water, protein = protein)
shelf <- rbind(
  whole = row(88.13, 3.15, 3.25, 5.05), reduced = row(89.21, 3.30, 1.98, 5.06), skim = row(90.84, 3.37, 0.08, 5.09),
  half = row(80.57, 3.13, 11.5, 4.13), light = row(73.75, 2.70, 19.31, 3.66), heavy = row(57.71, 2.05, 37.0, 2.79),
  evaporated = row(74.04, 6.81, 7.56, 10.04), evaporatedSkim = row(79.40, 7.55, 0.20, 11.35),
  condensed = row(27.16, 7.91, 8.70, 54.40), soy = row(90.36, 2.60, 1.47, 3.65), almond = row(91.80, 0.42, 1.04, 6.25),
  coconut = row(72.88, 2.02, 21.33, 3.3))

nearest <- function(target, parts, water) {
  A <- t(sweep(parts, 2, tolerance, "/")); b <- target / tolerance; n <- ncol(A)
  # quadprog loses digits where the quadratic is badly scaled: one factor for all changes nothing else
  s <- max(abs(A)); D <- crossprod(A / s); d <- crossprod(A / s, b / s)
  C <- cbind(if (water) rep(-1, n) else rep(1, n), diag(n))
  q <- solve.QP(D, d, C, c(if (water) -1 else 1, rep(0, n)), meq = if (water) 0 else 1)
  x <- pmax(q$solution, 0)
  list(shares = x, misfit = sqrt(sum((A %*% x - b)^2)))
}

set.seed(20261127)
cases <- list()
for (i in 1:120) {
  made <- i > 60
  parts <- if (made) cbind(fat = runif(3, 0, 40), sugars = runif(3, 0, 50), solids = runif(3, 5, 95), protein = runif(3, 0, 20))
           else shelf[sample(nrow(shelf), 3), ]
  target <- if (made) c(fat = runif(1, 0, 40), sugars = runif(1, 0, 50), solids = runif(1, 5, 95), protein = runif(1, 0, 20))
            else shelf[sample(setdiff(rownames(shelf), rownames(parts)), 1), ]
  water <- i %% 2 == 0
  cases[[i]] <- c(list(target = as.list(target), water = water,
                       parts = lapply(1:3, function(k) as.list(parts[k, ]))), nearest(target, parts, water))
}
# the whole shelf: the best of every three, each thing replaced in its turn
whole <- lapply(rownames(shelf), function(name) {
  others <- setdiff(rownames(shelf), name)
  found <- apply(combn(others, 3), 2, function(three) nearest(shelf[name, ], shelf[three, ], TRUE)$misfit)
  list(name = name, misfit = min(found))
})
write_json(list(made = paste("make/instead-of.R,", R.version.string, "quadprog", packageVersion("quadprog")),
                shelf = lapply(rownames(shelf), function(n) c(list(id = n), as.list(shelf[n, ]))),
                cases = cases, whole = whole),
           "test/reference/data/instead-of.json", auto_unbox = TRUE, digits = NA, pretty = TRUE)
