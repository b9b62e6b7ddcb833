# Mantel-Haenszel with teeth in children: mantelhaen.test for independent teeth, and its odds ratio
# as a function of the cell totals with R's survey package, children as clusters.
suppressPackageStartupMessages(library(survey))
options(digits = 16)
data <- read.csv(commandArgs(trailingOnly = TRUE)[1])
say <- function(name, value) cat(name, format(as.numeric(value), digits = 16), "\n")

tables <- table(factor(data$exposed, c(1, 0)), factor(data$kept, c(1, 0)), data$stratum)
plain <- mantelhaen.test(tables)
say("odds", plain$estimate)
say("low", plain$conf.int[1])
say("high", plain$conf.int[2])
say("chi", plain$statistic)
say("p", plain$p.value)

strata <- sort(unique(data$stratum))
for (k in strata) {
  here <- data$stratum == k
  data[[paste0("a", k)]] <- as.numeric(here & data$exposed == 1 & data$kept == 1)
  data[[paste0("b", k)]] <- as.numeric(here & data$exposed == 1 & data$kept == 0)
  data[[paste0("c", k)]] <- as.numeric(here & data$exposed == 0 & data$kept == 1)
  data[[paste0("d", k)]] <- as.numeric(here & data$exposed == 0 & data$kept == 0)
}
cells <- as.vector(outer(c("a", "b", "c", "d"), strata, paste0))
design <- svydesign(ids = ~child, weights = ~1, data = data)
totals <- svytotal(as.formula(paste("~", paste(cells, collapse = "+"))), design)
side <- function(one, two)
  paste0("(", paste0(one, strata, "*", two, strata, "/(a", strata, "+b", strata, "+c", strata,
                     "+d", strata, ")", collapse = "+"), ")")
ratio <- str2lang(paste0("log(", side("a", "d"), "/", side("b", "c"), ")"))
found <- svycontrast(totals, bquote(.(ratio)))
log.odds <- as.numeric(coef(found))
v <- as.numeric(vcov(found))
df <- degf(design)
say("clustered.variance", v)
say("clustered.low", exp(log.odds - qt(0.975, df) * sqrt(v)))
say("clustered.high", exp(log.odds + qt(0.975, df) * sqrt(v)))
say("clustered.p", 2 * pt(-abs(log.odds) / sqrt(v), df))
