# p-values adjusted by Holm's method.
options(digits = 16)
p <- read.csv(commandArgs(trailingOnly = TRUE)[1])$p
adjusted <- p.adjust(p, "holm")
for (i in seq_along(adjusted)) cat(paste0("p", i), format(adjusted[i], digits = 16), "\n")
