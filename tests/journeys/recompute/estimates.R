# Retention and attack rate of the demo county from rows alone: Rscript estimates.R CLUSTERS MOLARS
args <- commandArgs(trailingOnly = TRUE)
say <- function(name, value) cat(name, sprintf("%.17g", value), "\n")

teeth <- read.csv(args[1])
m <- nrow(teeth)
n <- sum(teeth$examined)
p <- sum(teeth$retained) / n
v <- m / ((m - 1) * n^2) * sum((teeth$retained - p * teeth$examined)^2)
d <- max(1, n * v / (p * (1 - p)))
ne <- n / d
z <- qnorm(0.975)
middle <- (p + z^2 / (2 * ne)) / (1 + z^2 / ne)
half <- z / (1 + z^2 / ne) * sqrt(p * (1 - p) / ne + z^2 / (4 * ne^2))
say("retention.estimate", p)
say("retention.low", middle - half)
say("retention.high", middle + half)
say("retention.design_effect", d)

library(sandwich)
molars <- read.csv(args[2])
molars <- molars[molars$years >= 0.25, ]
fit <- glm(affected ~ 1, family = binomial(link = "cloglog"), offset = log(molars$years),
           data = molars, control = glm.control(epsilon = 1e-14, maxit = 100))
b <- coef(fit)[[1]]
g <- length(unique(molars$child))
# CR0 with the factor m / (m - 1) alone, as docs/methods.md has it.
se <- sqrt(vcovCL(fit, cluster = molars$child, type = "HC0", cadjust = FALSE)[1, 1] * g / (g - 1))
rate <- function(x) 1 - exp(-exp(x))
say("attack_rate.molars", nrow(molars))
say("attack_rate.estimate", rate(b))
say("attack_rate.low", rate(b - z * se))
say("attack_rate.high", rate(b + z * se))
