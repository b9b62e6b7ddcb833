# Turnbull's curve by another road: self-consistency on the dense 0/1 matrix of spells by innermost
# intervals, then full Newton steps on the intervals left with a mass. It must agree with
# survival::survfit, which stops when a step is under 5e-5, to 2e-3, and with npsurv, where that is
# installed, to 1e-8 of the log-likelihood. A right of -1 stands for still whole.
options(digits = 16)
suppressPackageStartupMessages(library(survival))
data <- read.csv(commandArgs(trailingOnly = TRUE)[1])
data <- data[!(data$left == 0 & data$right == -1), ]
left <- data$left
right <- ifelse(data$right == -1, Inf, data$right)
exact <- left == right

# (L, R] with right ends before open left ends at a tie; an exact time is [t, t].
ends <- data.frame(time = c(left, right), kind = c(ifelse(exact, 0, 2), rep(1, length(right))))
ends <- ends[order(ends$time, ends$kind), ]
n <- nrow(ends)
inner <- which(ends$kind[-n] != 1 & ends$kind[-1] == 1)
from <- ends$time[inner]
until <- ends$time[inner + 1]
point <- ends$kind[inner] == 0
covers <- outer(seq_along(left), seq_along(from), Vectorize(function(i, j) {
  if (exact[i]) return(point[j] && from[j] == left[i])
  until[j] <= right[i] && (if (point[j]) from[j] > left[i] else from[j] >= left[i])
})) * 1

p <- rep(1 / length(from), length(from))
for (i in 1:20000) p <- p * colMeans(covers / as.vector(covers %*% p))
keep <- p > 1e-7
a <- covers[, keep, drop = FALSE]
p <- p[keep] / sum(p[keep])
for (i in 1:10) {
  chance <- as.vector(a %*% p)
  slope <- colSums(a / chance) - nrow(a)
  p <- p + solve(crossprod(a / chance), slope)
  p <- p / sum(p)
}
slopes <- colMeans(covers / as.vector(a %*% p))
stopifnot(all(p > 0), max(slopes) < 1 + 1e-9)

masses <- data.frame(from = from[keep], until = until[keep], mass = p)
fit <- survfit(Surv(left, ifelse(is.infinite(right), NA, right), type = "interval2") ~ 1)
# Times at which the curve is determined.
at <- sort(unique(c(masses$from, masses$until[is.finite(masses$until)])))
ours <- sapply(at, function(t) sum(masses$mass[masses$until > t]))
theirs <- summary(fit, times = at, extend = TRUE)$surv
stopifnot(max(abs(ours - theirs)) < 2e-3)
if (requireNamespace("npsurv", quietly = TRUE) && !any(exact)) {
  other <- npsurv::npsurv(cbind(left, right), tol = 1e-12)
  stopifnot(abs(other$ll - sum(log(a %*% p))) < 1e-8)
}

say <- function(name, value) cat(name, format(as.numeric(value), digits = 16), "\n")
say("loglik", sum(log(a %*% p)))
for (i in seq_len(nrow(masses))) {
  say(paste0("from", i), masses$from[i])
  say(paste0("until", i), ifelse(is.infinite(masses$until[i]), -1, masses$until[i]))
  say(paste0("mass", i), masses$mass[i])
}
