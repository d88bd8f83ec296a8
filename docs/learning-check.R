# What src/test/java/lanemend/crewdays/learning/PoolingTest.java compares with.
# Run: Rscript docs/learning-check.R
# Log ratios of 12 crews at 4 treatments by a fixed rule (Park and Miller's generator, so that any
# program makes the same), fitted by restricted maximum likelihood with mgcv's random effects.
library(mgcv)
state <- 12345
u <- function() { state <<- (state * 16807) %% 2147483647; state / 2147483647 }
n <- function() { a <- u(); b <- u(); sqrt(-2 * log(a)) * cos(2 * pi * b) }
treatments <- sapply(1:4, function(i) 0.15 * n())
crews <- sapply(1:12, function(i) 0.12 * n())
d <- NULL
for (t in 1:4) for (c in 1:12) {
  own <- 0.05 + treatments[t] + crews[c] + 0.06 * n()
  k <- 3 + floor(6 * u())
  for (i in seq_len(k)) d <- rbind(d, data.frame(treatment = t, crew = c, log = own + 0.2 * n()))
}
d$treatment <- factor(d$treatment)
d$crew <- factor(d$crew)
d$cell <- interaction(d$treatment, d$crew)
m <- gam(log ~ s(treatment, bs = "re") + s(crew, bs = "re") + s(cell, bs = "re"),
         data = d, method = "REML")
gam.vcomp(m)
cells <- unique(d[, c("treatment", "crew", "cell")])
p <- predict(m, cells, se.fit = TRUE)
cat(nrow(d), "records\n")
cat(sprintf("%.4f, %.4f,\n", p$fit, p$se.fit), sep = "")
