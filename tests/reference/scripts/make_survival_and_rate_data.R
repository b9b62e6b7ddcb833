# Made data/survival_teeth.csv and data/attack_rate.csv once; run in tests/reference to make them
# again. Invented numbers: no child, no school.
set.seed(20261, kind = "Mersenne-Twister")

# Four teeth in each of 60 children, looked at on whole months, some exactly when lost.
children <- 60
rows <- list()
for (child in 1:children) {
  frailty <- rgamma(1, 4, 4)
  visits <- cumsum(sample(5:14, 4, replace = TRUE))
  visits <- visits[seq_len(sample(0:4, 1, prob = c(.05, .2, .25, .25, .25)))]
  for (tooth in 1:4) {
    life <- rweibull(1, .8, 90) / frailty
    found <- visits[visits >= life]
    left <- max(0, visits[visits < life])
    right <- if (length(found) > 0) min(found) else NA
    if (!is.na(right) && runif(1) < .08) left <- right <- ceiling(life)
    rows[[length(rows) + 1]] <- data.frame(child, left, right)
  }
}
teeth <- do.call(rbind, rows)
teeth$right[is.na(teeth$right)] <- -1
write.csv(teeth, "data/survival_teeth.csv", row.names = FALSE, quote = FALSE)

# Upper and lower molars of 12 schools; school 12 has two children and none affected.
sizes <- c(30, 25, 18, 22, 40, 12, 9, 33, 15, 20, 8, 2)
rows <- list()
child <- 0
for (school in seq_along(sizes)) {
  hazard <- exp(rnorm(1, log(.09), .45))
  for (i in seq_len(sizes[school])) {
    child <- child + 1
    own <- hazard * rgamma(1, .8, .8)
    age <- round(runif(1, 6.3, 10.8), 2)
    for (arch in c(6.25, 6.05)) {
      years <- round(age - arch, 2)
      examined <- sample(1:2, 1, prob = c(.2, .8))
      affected <- if (years > 0 && school < 12) rbinom(1, examined, 1 - exp(-own * years)) else 0
      rows[[length(rows) + 1]] <- data.frame(school, child, years, examined, affected)
    }
  }
}
write.csv(do.call(rbind, rows), "data/attack_rate.csv", row.names = FALSE, quote = FALSE)
