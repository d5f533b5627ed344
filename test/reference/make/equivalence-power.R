# Exact power of the two one-sided t tests, paired, by R's own integrate() over s/sigma (not in logarithms, so that the
# route differs from ours). Run: Rscript equivalence-power.R > ../data/equivalence-power.json
power <- function(n, sd, margin, truth, alpha) {
  se <- sd * sqrt(2 / n); df <- n - 1; t <- qt(1 - alpha, df)
  f <- function(x) 2 * x * df * dchisq(x^2 * df, df) * pmax(0, pnorm((margin - truth) / se - t * x) - pnorm(-(margin + truth) / se + t * x))
  top <- min(margin / se / t, 1 + 12 / sqrt(2 * df))
  cuts <- sort(unique(pmin(top, pmax(0, 1 + (-6:6) / sqrt(2 * df)))))
  cuts <- unique(c(0, cuts, top))
  sum(mapply(function(a, b) if (b > a) integrate(f, a, b, rel.tol = 1e-12, subdivisions = 500)$value else 0, head(cuts, -1), tail(cuts, -1)))
}
cases <- expand.grid(n = c(2, 3, 8, 24, 60, 300, 4000), sd = c(0.8, 1.5), margin = c(0.3, 1), truth = c(0, -0.2), alpha = c(0.05, 0.01))
lines <- apply(cases, 1, function(r) sprintf('    { "n": %d, "sd": %.1f, "margin": %.1f, "truth": %.1f, "alpha": %.2f, "power": %.15g }',
  as.integer(r["n"]), r["sd"], r["margin"], r["truth"], r["alpha"], power(r["n"], r["sd"], r["margin"], r["truth"], r["alpha"])))
cat(sprintf('{\n  "source": "R integrate() of the conditional normal power over the chi density",\n  "page": "Phillips (1990), J. Pharmacokinet. Biopharm. 18, 137-144",\n  "tool": "R",\n  "versions": "R %s.%s",\n  "script": "make/equivalence-power.R",\n  "made": "%s",\n  "tolerance": 1e-9,\n  "cases": [\n%s\n  ]\n}\n',
  R.version$major, R.version$minor, Sys.Date(), paste(lines, collapse = ",\n")))
