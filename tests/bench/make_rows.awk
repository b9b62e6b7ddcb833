# One row a sealant, invented: `rows` of them from `seed`, one to four a child, with the columns
# child,examined,retained,left,right. A child has its own chance of retention. A sealant is lost at
# 12 % a year and checked up to five times, 120 to 520 days apart, on a grid of `grid` days.
BEGIN {
  srand(seed)
  print "child,examined,retained,left,right"
  daysKept = -365 / log(1 - 0.12)
  for (row = 1; row <= rows; ++row) {
    if (teeth == 0) {
      ++child
      teeth = 1 + int(4 * rand())
      chance = 0.75 + 0.25 * rand()
    }
    --teeth
    life = -daysKept * log(1 - rand())
    time = 0
    left = 0
    right = ""
    for (check = 0; check < 5 && right == ""; ++check) {
      time += 120 + 400 * rand()
      seen = grid * (int(time / grid) + 1)
      if (life <= seen) right = seen
      else left = seen
      if (rand() < 0.2) break
    }
    print child ",1," (rand() < chance ? 1 : 0) "," left "," right
  }
}
