# Beta-binomial by marginal maximum likelihood: nlminb from the log-gamma form, then Newton steps
# with digamma and trigamma to full precision. Ours climbs another form of the same likelihood.
options(digits = 16)
data <- read.csv(commandArgs(trailingOnly = TRUE)[1])
x <- data$kept
n <- data$examined
negative <- function(logs) {
  ab <- exp(logs)
  -sum(lbeta(x + ab[1], n - x + ab[2]) - lbeta(ab[1], ab[2]))
}
ab <- exp(nlminb(c(1, 0), negative)$par)
for (i in 1:20) {
  a <- ab[1]
  b <- ab[2]
  both <- sum(digamma(a + b) - digamma(n + a + b))
  score <- c(sum(digamma(x + a) - digamma(a)) + both, sum(digamma(n - x + b) - digamma(b)) + both)
  shared <- sum(trigamma(a + b) - trigamma(n + a + b))
  bend <- matrix(shared, 2, 2) +
    diag(c(sum(trigamma(x + a) - trigamma(a)), sum(trigamma(n - x + b) - trigamma(b))))
  ab <- ab - solve(bend, score)
}
say <- function(name, value) cat(name, format(as.numeric(value), digits = 16), "\n")
say("alpha", ab[1])
say("beta", ab[2])
say("loglik", -negative(log(ab)))
for (i in seq_along(x)) say(paste0("unit", i), (x[i] + ab[1]) / (n[i] + sum(ab)))
