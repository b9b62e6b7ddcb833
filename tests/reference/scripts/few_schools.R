# What the total of two to seven schools prints, with the design effects and, where schools are the
# clusters and the more unlike, the limits of R's survey package. docs/methods.md, section 1.
suppressPackageStartupMessages(library(survey))
options(digits = 16)
data <- read.csv(commandArgs(trailingOnly = TRUE)[1])
teeth <- data[rep(seq_len(nrow(data)), data$examined), c("school", "child")]
teeth$kept <- unlist(Map(function(n, x) rep(c(1, 0), c(x, n - x)), data$examined, data$retained))

say <- function(name, value) cat(name, format(as.numeric(value), digits = 16), "\n")

n <- nrow(teeth)
byChild <- svydesign(ids = ~child, weights = ~1, data = teeth)
bySchool <- svydesign(ids = ~school, weights = ~1, data = teeth)
effect <- function(design) {
  mean <- svymean(~kept, design)
  p <- as.numeric(coef(mean))
  n * as.numeric(vcov(mean)) / (p * (1 - p))
}
p <- mean(teeth$kept)
schools <- length(unique(teeth$school))
children <- effect(byChild)
between <- effect(bySchool)
planned <- 1 + (sum(table(teeth$school)^2) / n - 1) * .05
used <- if (schools < 4) max(children, between, planned) else max(children, between)
if (schools >= 4 && between >= children) {
  limits <- confint(svyciprop(~kept, bySchool, method = "beta"))
} else {
  m <- if (schools < 4) length(unique(teeth$child)) else schools
  k <- min(n, n / used * (qt(.975, n - 1) / qt(.975, m - 1))^2)
  limits <- c(qbeta(.025, p * k, k - p * k + 1), qbeta(.975, p * k + 1, k - p * k))
}
say("estimate", p)
say("child.effect", children)
say("school.effect", between)
say("used", used)
say("low", limits[1])
say("high", limits[2])
