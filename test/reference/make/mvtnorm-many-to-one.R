# P(|T_i| <= q, all i) for correlations that are no products of loadings. Run: Rscript mvtnorm-many-to-one.R > ../data/mvtnorm-many-to-one.json
# Three contrasts: TVPACK (deterministic, Genz 2004), df whole or infinite. More: Miwa (2003) for the normal, GenzBretz
# with abseps 1e-7 for t; `within` is the error that algorithm states, at least 1e-6.
library(mvtnorm)
full <- function(...) { r <- c(...); m <- (1 + sqrt(1 + 8 * length(r))) / 2; C <- diag(m); C[lower.tri(C)] <- r; C[upper.tri(C)] <- t(C)[upper.tri(C)]; C }
sets <- list(
  list(name = "three, one pair close", C = full(0.9, 0.2, 0.5)),
  list(name = "three, signs that no products give", C = full(0.4, 0.3, -0.2)),
  list(name = "three, nearly products", C = full(0.5, 0.52, 0.49)),
  list(name = "four, two kinds", C = full(0.7, 0.3, 0.3, 0.3, 0.3, 0.6)),
  list(name = "five, an incomplete block layout", C = full(0.55, 0.48, 0.51, 0.44, 0.52, 0.46, 0.50, 0.57, 0.49, 0.53))
)
# TVPACK wants lower corners: the box is their sum with alternating signs
box3 <- function(q, df, C) { s <- as.matrix(expand.grid(c(1, -1), c(1, -1), c(1, -1)))
  sum(apply(s, 1, function(k) prod(k) * (if (is.finite(df)) pmvt(upper = k * q, df = df, corr = C, algorithm = TVPACK(1e-13)) else pmvnorm(upper = k * q, corr = C, algorithm = TVPACK(1e-13))))) }
set.seed(20261125)
cases <- character()
for (s in sets) for (df in c(5, 24, Inf)) for (q in c(1.5, 2.5, 4)) {
  m <- nrow(s$C)
  if (m == 3) { v <- box3(q, df, s$C); e <- 1e-6 }
  else if (!is.finite(df)) { v <- pmvnorm(rep(-q, m), rep(q, m), corr = s$C, algorithm = Miwa(steps = 512)); e <- 1e-6 }
  else { v <- pmvt(rep(-q, m), rep(q, m), df = df, corr = s$C, algorithm = GenzBretz(maxpts = 2e7, abseps = 1e-7)); e <- max(1e-6, attr(v, "error")) }
  cases <- c(cases, sprintf('    { "name": "%s", "correlation": [%s], "df": %s, "q": %.1f, "inside": %.12f, "within": %.2g }',
    s$name, paste(apply(s$C, 1, function(r) paste0("[", paste(r, collapse = ", "), "]")), collapse = ", "),
    if (is.finite(df)) df else '"Infinity"', q, v, e))
}
cat(sprintf('{\n  "source": "R package mvtnorm",\n  "page": "pmvt, pmvnorm",\n  "tool": "R",\n  "versions": "R %s.%s, mvtnorm %s",\n  "script": "make/mvtnorm-many-to-one.R",\n  "made": "%s",\n  "cases": [\n%s\n  ]\n}\n',
  R.version$major, R.version$minor, packageVersion("mvtnorm"), Sys.Date(), paste(cases, collapse = ",\n")))
