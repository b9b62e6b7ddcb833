# Retention, attack rate and cavities averted of the demo county from rows alone:
# Rscript estimates.R CLUSTERS MOLARS SEALED
args <- commandArgs(trailingOnly = TRUE)
say <- function(name, value) cat(name, sprintf("%.17g", value), "\n")

teeth <- read.csv(args[1])
n <- sum(teeth$examined)
p <- sum(teeth$retained) / n
clusters <- function(by) rowsum(teeth[c("examined", "retained")], by)
effect <- function(at) {
  m <- nrow(at)
  m / ((m - 1) * n) * sum((at$retained - p * at$examined)^2) / (p * (1 - p))
}
children <- clusters(teeth$child)
schools <- clusters(teeth$school)
# docs/methods.md, section 1: four to seven schools are the clusters, and the larger design effect
# of the two is taken.
stopifnot(nrow(schools) >= 4, nrow(schools) <= 7)
m <- nrow(schools)
d <- max(1, effect(children), effect(schools))
# Korn and Graubard 1998, as docs/methods.md has it for what a person reads.
k <- min(n, n / d * (qt(0.975, n - 1) / qt(0.975, m - 1))^2)
x <- p * k
z <- qnorm(0.975)
say("retention.estimate", p)
say("retention.low", qbeta(0.025, x, k - x + 1))
say("retention.high", qbeta(0.975, x + 1, k - x))
say("retention.design_effect", d)

library(sandwich)
molars <- read.csv(args[2])
molars <- molars[molars$years >= 0.25, ]
fit <- glm(affected ~ 1, family = binomial(link = "cloglog"), offset = log(molars$years),
           data = molars, control = glm.control(epsilon = 1e-14, maxit = 100))
b <- coef(fit)[[1]]
# CR0 with the factor m / (m - 1) alone, by child or by school, whichever is the larger; from four
# schools on Student's t on schools less one, written as a normal standard error.
clustered <- function(by) {
  g <- length(unique(by))
  sqrt(vcovCL(fit, cluster = by, type = "HC0", cadjust = FALSE)[1, 1] * g / (g - 1))
}
seen <- length(unique(molars$school))
stopifnot(seen >= 4)
se <- max(clustered(molars$child), clustered(molars$school)) * qt(0.975, seen - 1) / z
rate <- function(x) 1 - exp(-exp(x))
say("attack_rate.molars", nrow(molars))
say("attack_rate.estimate", rate(b))
say("attack_rate.low", rate(b - z * se))
say("attack_rate.high", rate(b + z * se))

# Griffin, Jones and Crespin 2014 as docs/methods.md has it: a tooth is attacked in the year in which
# its sealant still holds, and would not have been attacked before or after. Delta method with the
# slopes by differences, limits on the logit of the share.
sealed <- as.numeric(args[3])
years <- 9
t <- 1:years
share <- function(b, l) {
  a <- rate(b)
  sum(plogis(l) * (1 - 0.05 * (t - 1)) * a * (1 - a)^(years - t))
}
l <- qlogis(p)
step <- 1e-5
slope_b <- (share(b + step, l) - share(b - step, l)) / (2 * step)
slope_l <- (share(b, l + step) - share(b, l - step)) / (2 * step)
s <- share(b, l)
error <- sqrt((slope_b * se)^2 + slope_l^2 * (1 / (k * p) + 1 / (k * (1 - p)))) / (s * (1 - s))
say("averted.estimate", sealed * s)
say("averted.low", sealed * plogis(qlogis(s) - z * error))
say("averted.high", sealed * plogis(qlogis(s) + z * error))
