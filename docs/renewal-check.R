# Independent check of the repair model: the same likelihood written plainly, climbed by R's optim.
# Run: Rscript docs/renewal-check.R
# 200 cells watched for 8 years from ages 0..19; repairs by a fixed rule, no random numbers.
cells <- lapply(0:199, function(i) {
  start <- (7 * i) %% 20
  n <- if (i %% 3 != 0) ((i * i * 31) %% 11) %/% 2 else 0
  list(u = start, v = start + 8, t = start + 8 * (seq_len(n) / (n + 1))^0.8)
})
nll <- function(p) {
  a <- exp(p[1]); b <- exp(p[2]); k <- exp(p[3])
  -sum(sapply(cells, function(c) {
    mu <- a * (c$v^b - c$u^b); n <- length(c$t)
    sum(log(a * b) + (b - 1) * log(c$t)) +
      lgamma(k + n) - lgamma(k) + k * log(k) - (k + n) * log(k + mu)
  }))
}
fit <- optim(c(-3, 0.2, 0), nll, method = "BFGS", control = list(reltol = 1e-15, maxit = 1000))
fit <- optim(fit$par, nll, method = "BFGS", hessian = TRUE,
             control = list(reltol = 1e-15, ndeps = rep(1e-4, 3)))
se <- sqrt(diag(solve(fit$hessian)))
e <- exp(fit$par)
cat(R.version.string, "\n")
cat(sprintf("repairs %d\n", sum(sapply(cells, function(c) length(c$t)))))
cat(sprintf("a %.8f se %.8f\nb %.8f se %.8f\nvariance %.8f se %.8f\nlog-likelihood %.8f\n",
            e[1], e[1] * se[1], e[2], e[2] * se[2], 1 / e[3], se[3] / e[3], -fit$value))
