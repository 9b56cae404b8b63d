### Practice birds: how much each asks, and what is seen of her.

lessons-first = first steps
lessons-second = some practice
lessons-third = hard
lessons-usual = Nothing out of the ordinary.
