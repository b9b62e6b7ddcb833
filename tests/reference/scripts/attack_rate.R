# Annual attack rate: glm with cloglog link and offset, child-clustered by sandwich::vcovCL;
# likelihood limits by root finding on the deviance; the rate by band of time in the mouth by
# likelihood ratio and by a generalised score test from the full matrices; schools by restricted
# maximum likelihood.
options(digits = 16)
suppressPackageStartupMessages(library(sandwich))
data <- read.csv(commandArgs(trailingOnly = TRUE)[1])
data <- data[data$years >= .25, ]
exactly <- glm.control(epsilon = 1e-15, maxit = 200)
say <- function(name, value) cat(name, format(as.numeric(value), digits = 16), "\n")
annual <- function(eta) 1 - exp(-exp(eta))
rate <- function(rows, terms = ~ 1) {
  glm(update(cbind(affected, examined - affected) ~ ., terms), binomial("cloglog"), rows,
      offset = log(years), control = exactly)
}
model_variance <- function(fit) 1 / sum(fit$weights)

fit <- rate(data)
robust <- vcovCL(fit, cluster = data$child, type = "HC0", cadjust = TRUE)[1]
model <- model_variance(fit)
eta <- coef(fit)[[1]]
say("annual", annual(eta))
say("cloglog", eta)
say("robust", robust)
say("model", model)
se <- sqrt(max(robust, model))
say("low", annual(eta - qnorm(.975) * se))
say("high", annual(eta + qnorm(.975) * se))

loglik <- function(eta, rows = data) {
  chance <- -expm1(-exp(eta) * rows$years)
  sum(rows$affected * log(chance) - (rows$examined - rows$affected) * exp(eta) * rows$years)
}
say("loglik", loglik(eta))
limit <- function(effect, side) {
  uniroot(function(x) 2 * (loglik(eta) - loglik(x)) / effect - qchisq(.95, 1),
          sort(c(eta, eta + side * 3)), tol = 1e-13)$root
}
say("profile.low", annual(limit(1, -1)))
say("profile.high", annual(limit(1, 1)))
say("profile.clustered.low", annual(limit(max(1, robust / model), -1)))
say("profile.clustered.high", annual(limit(max(1, robust / model), 1)))

data$band <- cut(data$years, c(.25, 1, 2, 3, Inf), right = FALSE)
wide <- rate(data, ~ band)
ratio <- fit$deviance - wide$deviance
say("band.ratio", ratio)
say("band.ratio.p", pchisq(ratio, nlevels(data$band) - 1, lower.tail = FALSE))
clustered <- ratio / max(1, robust / model)
say("band.clustered", clustered)
say("band.clustered.p", pchisq(clustered, nlevels(data$band) - 1, lower.tail = FALSE))
x <- model.matrix(~ band, data)
scores <- x * fit$weights * residuals(fit, "working")
per_child <- rowsum(scores, data$child)
m <- nrow(per_child)
information <- crossprod(x * sqrt(fit$weights))
tested <- 2:ncol(x)
off <- information[tested, 1] / information[1, 1]
lean <- per_child[, tested] - outer(per_child[, 1], off)
score <- colSums(lean)
robust_score <- score %*% solve(crossprod(lean) * m / (m - 1), score)
say("band.score", robust_score)
say("band.score.p", pchisq(robust_score, length(tested), lower.tail = FALSE))

schools <- split(data, data$school)
mixed <- sapply(schools, function(rows) sum(rows$affected) > 0)
fits <- lapply(schools[mixed], rate)
own_model <- sapply(fits, model_variance)
own_robust <- mapply(function(f, rows) vcovCL(f, cluster = rows$child, type = "HC0")[1], fits,
                     schools[mixed])
effect <- max(1, weighted.mean(own_robust / own_model, 1 / own_model))
say("schools.effect", effect)
with_half <- function(rows) {
  half <- data.frame(years = weighted.mean(rows$years, rows$examined), examined = 1, affected = .5)
  rbind(rows[names(half)], half)
}
half_eta <- function(rows) coef(suppressWarnings(rate(with_half(rows))))[[1]]
information_at <- function(rows, eta) {
  x <- exp(eta) * rows$years
  chance <- -expm1(-x)
  sum(rows$examined * (x * exp(-x))^2 / (chance * (1 - chance)))
}
y <- sapply(schools, function(rows) {
  if (sum(rows$affected) == 0) half_eta(rows) else coef(rate(rows))[[1]]
})
k <- length(y)
slope <- function(t2) {
  w <- 1 / (v + t2)
  p <- diag(w) - outer(w, w) / sum(w)
  as.numeric(t(y) %*% p %*% p %*% y) - sum(diag(p))
}
between <- function() {
  if (slope(0) <= 0) 0 else uniroot(slope, c(0, 10), tol = 1e-15)$root
}
pull <- function(t2) (k - 3) / (k - 1) * v / (v + t2)
# Variances at the common rate, then at the rates shrunken under it.
v <- effect / sapply(schools, information_at, eta = half_eta(data))
t2 <- between()
w <- 1 / (v + t2)
nearer <- y - pull(t2) * (y - sum(w * y) / sum(w))
v <- effect / mapply(information_at, schools, nearer)
t2 <- between()
w <- 1 / (v + t2)
mu <- sum(w * y) / sum(w)
se <- sqrt(max(1, sum(w * (y - mu)^2) / (k - 1)) / sum(w))
w0 <- 1 / v
q <- sum(w0 * (y - sum(w0 * y) / sum(w0))^2)
say("schools.tau2", t2)
say("schools.moments", max(0, (q - (k - 1)) / (sum(w0) - sum(w0^2) / sum(w0))))
say("schools.q", q)
say("schools.q.p", pchisq(q, k - 1, lower.tail = FALSE))
say("schools.annual", annual(mu))
say("schools.low", annual(mu - qt(.975, k - 1) * se))
say("schools.high", annual(mu + qt(.975, k - 1) * se))
say("schools.next.low", annual(mu - qt(.975, k - 2) * sqrt(t2 + se^2)))
say("schools.next.high", annual(mu + qt(.975, k - 2) * sqrt(t2 + se^2)))
# Morris 1983
b <- pull(t2)
eb <- y - b * (y - mu)
typical <- weighted.mean(v, w)
eb_se <- sqrt(v * (1 - (1 - w / sum(w)) * b) +
                2 / (k - 3) * b^2 * (typical + t2) / (v + t2) * (y - mu)^2)
for (i in seq_len(k)) {
  say(paste0("school", i), annual(eb[i]))
  say(paste0("school", i, ".low"), annual(eb[i] - qnorm(.975) * eb_se[i]))
  say(paste0("school", i, ".high"), annual(eb[i] + qnorm(.975) * eb_se[i]))
}
