# Cavities averted and their bounds, by another path than the program's closed form: the yearly chain
# as products of a matrix, the delta method with slopes by differences, the scenarios by trying every
# combination of ends. docs/methods.md, section 3.
options(digits = 16)
data <- read.csv(commandArgs(trailingOnly = TRUE)[1])
say <- function(name, value) cat(name, format(as.numeric(value), digits = 16), "\n")

usual <- function(years) pmax(0, 1 - .05 * (seq_len(years) - 1))
# Of one tooth: sealed and sound, unsealed and sound, affected; sealants are lost first.
averted <- function(a, r, years, e = 1, f = usual(years)) {
  state <- c(1, 0, 0)
  without <- c(1, 0)
  kept <- c(1, r * f)
  for (year in seq_len(years)) {
    stays <- if (kept[year] > 0) kept[year + 1] / kept[year] else 0
    loses <- rbind(c(stays, 1 - stays, 0), c(0, 1, 0), c(0, 0, 1))
    b <- a * (1 - e)
    attacks <- rbind(c(1 - b, 0, b), c(0, 1 - a, a), c(0, 0, 1))
    state <- as.vector(state %*% loses %*% attacks)
    without <- as.vector(without %*% rbind(c(1 - a, a), c(0, 1)))
  }
  without[2] - state[3]
}

for (i in seq_len(nrow(data))) {
  row <- data[i, ]
  name <- function(what) paste0("row", i, ".", what)
  of <- function(a = row$attack, r = row$retention, ...) averted(a, r, row$years, ...)
  one <- of()
  say(name("averted"), row$sealants * one)
  say(name("all.lost"), row$sealants * of(f = c(1, rep(0, row$years - 1))))
  say(name("none.lost"), row$sealants * of(f = rep(1, row$years)))
  # What those not looked at could make of it: all of them failed, all of them kept.
  seen <- row$found / row$due
  ends <- c(row$retention * seen, row$retention * seen + 1 - seen)
  say(name("bound.low"), row$sealants * of(r = ends[1]))
  say(name("bound.high"), row$sealants * of(r = ends[2]))

  eta <- log(-log(1 - row$attack))
  slope_a <- (of(a = 1 - exp(-exp(eta + 1e-5))) - of(a = 1 - exp(-exp(eta - 1e-5)))) / 2e-5
  lambda <- qlogis(row$retention)
  slope_r <- (of(r = plogis(lambda + 1e-5)) - of(r = plogis(lambda - 1e-5))) / 2e-5
  se_r <- sqrt(1 / (row$n * row$retention) + 1 / (row$n * (1 - row$retention)))
  se <- sqrt((slope_a * row$se)^2 + (slope_r * se_r)^2)
  say(name("se"), row$sealants * se)
  limits <- plogis(qlogis(one) + c(-1, 1) * qnorm(.975) * se / (one * (1 - one)))
  say(name("low"), row$sealants * limits[1])
  say(name("high"), row$sealants * limits[2])

  grid <- expand.grid(a = c(row$attack / 2, row$attack * 2), r = ends, e = c(.81, 1))
  all <- mapply(function(a, r, e) of(a, r, e = e), grid$a, grid$r, grid$e)
  all <- c(all, one) # low and high include the base
  say(name("scenario.low"), row$sealants * min(all))
  say(name("scenario.high"), row$sealants * max(all))
}
