### Practice birds: how much each asks, and what is seen of her.

practised-first = first steps
practised-second = some practice
practised-third = hard
practised-usual = Nothing out of the ordinary.
