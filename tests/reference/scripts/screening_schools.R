# Screening shares of children in schools, and of the same children drawn one by one.
suppressPackageStartupMessages(library(survey))
options(digits = 16)
data <- read.csv(commandArgs(trailingOnly = TRUE)[1])
data$experience <- as.numeric(data$untreated | data$treated)
data$any <- as.numeric(data$need > 0)
data$urgent <- as.numeric(data$need == 2)
say <- function(name, value) cat(name, format(as.numeric(value), digits = 16), "\n")
designs <- list(schools = svydesign(ids = ~school, weights = ~1, data = data),
                random = svydesign(ids = ~1, weights = ~1, data = data))
for (name in names(designs)) for (measure in c("untreated", "treated", "experience", "sealants",
                                               "any", "urgent")) {
  found <- svymean(as.formula(paste0("~", measure)), designs[[name]])
  say(paste(name, measure, "estimate", sep = "."), coef(found))
  say(paste(name, measure, "variance", sep = "."), vcov(found))
}
for (measure in c("untreated", "experience")) {
  logit <- confint(svyciprop(as.formula(paste0("~", measure)), designs$random, method = "logit"))
  say(paste("random", measure, "logit.low", sep = "."), logit[1])
  say(paste("random", measure, "logit.high", sep = "."), logit[2])
}
