# Share of sealants retained, by child and by school, with R's survey package.
# One row a tooth, as svyciprop(method = "beta") takes its denominator from the rows.
suppressPackageStartupMessages(library(survey))
options(digits = 16)
data <- read.csv(commandArgs(trailingOnly = TRUE)[1])
teeth <- data[rep(seq_len(nrow(data)), data$examined), c("school", "child")]
teeth$kept <- unlist(Map(function(n, x) rep(c(1, 0), c(x, n - x)), data$examined, data$retained))

say <- function(name, value) cat(name, format(as.numeric(value), digits = 16), "\n")

wilson <- function(p, n, z) {
  centre <- (p + z^2 / (2 * n)) / (1 + z^2 / n)
  half <- z / (1 + z^2 / n) * sqrt(p * (1 - p) / n + z^2 / (4 * n^2))
  c(centre - half, centre + half)
}

for (level in c("child", "school")) {
  design <- svydesign(ids = as.formula(paste0("~", level)), weights = ~1, data = teeth)
  mean <- svymean(~kept, design)
  p <- as.numeric(coef(mean))
  v <- as.numeric(vcov(mean))
  neff <- p * (1 - p) / v
  limits <- wilson(p, neff, qnorm(0.975))
  beta <- confint(svyciprop(~kept, design, method = "beta"))
  logit <- confint(svyciprop(~kept, design, method = "logit"))
  say(paste0(level, ".estimate"), p)
  say(paste0(level, ".variance"), v)
  say(paste0(level, ".effective"), neff)
  say(paste0(level, ".wilson.low"), limits[1])
  say(paste0(level, ".wilson.high"), limits[2])
  say(paste0(level, ".beta.low"), beta[1])
  say(paste0(level, ".beta.high"), beta[2])
  say(paste0(level, ".logit.low"), logit[1])
  say(paste0(level, ".logit.high"), logit[2])
}
