# The two estimates of against_r.sh in R: retention with survey, the curve with survival. Prints the
# answers and the processor seconds of each, the reading of the table apart.
suppressMessages({library(survey); library(survival)})
words <- commandArgs(trailingOnly = TRUE)
seconds <- function(expr) sum(system.time(expr)[c("user.self", "sys.self")])

# the reader of data.table is R's fastest
fast <- requireNamespace("data.table", quietly = TRUE)
reading <- seconds(
  rows <- if (fast) data.table::fread(words[2], data.table = FALSE) else read.csv(words[2]))
if (words[1] == "retention") {
  work <- seconds({
    design <- svydesign(ids = ~child, weights = ~1, data = rows)
    answer <- svymean(~retained, design)
  })
  cat("estimate", format(unname(coef(answer)), digits = 12), "\n")
} else {
  work <- seconds(answer <- survfit(Surv(left, right, type = "interval2") ~ 1, data = rows))
  at <- as.numeric(words[3])
  cat("survival", format(summary(answer, times = at)$surv, digits = 12), "\n")
}
cat("reading", reading, "\nwork", work, "\n")
