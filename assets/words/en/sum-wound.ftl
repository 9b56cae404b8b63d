### Sums about wounds: the skin they take, how they close, and the hours since they were made.

sum-wound-no-zone = is no zone we know
sum-wound-skin = skin
sum-wound-skin-formula = pi/4 x length x width, to 2 mm each / (10 x W^(2/3) cm2, W in grams)
sum-wound-means = means
sum-wound-share = share of her skin
# $number (number): the wound's number, from 1
sum-wound-number = wound { $number }
sum-wound-water-lost = water lost through it, about
sum-wound-more-by-lines = Length times width would say 27 in 100 more.

sum-wound-healing = healing
sum-wound-healing-formula = area = pi/4 x length x width; edge in = area closed / mean edge
sum-wound-days-outside = is outside 1 to 3650
sum-wound-area-closed = area closed
sum-wound-edge-in = edge came in
sum-wound-edge-now = edge of it now
sum-wound-a-day = a day
sum-wound-a-day-measured = a day, as measured
sum-wound-closed-in = may be closed in
sum-wound-goes-on = The forecast takes the edge to go on as it did; wounds slow down and stop. Measure again.
sum-wound-not-foretold = not foretold: too few days, or less than a ruler can tell
sum-wound-grew = It has grown after the third day. A vet, within a day (our inference).
sum-wound-not-smaller = Not clearly smaller by the seventh day. A vet, within a day (our inference).
sum-wound-ruler = The change is smaller than the ruler can tell. Measure again in some days.
sum-wound-no-rate = No rate of healing is published for birds.

sum-wound-years = is outside the years 1990 to 2200
sum-wound-clock-times = '2026-10-24 20:00' or 20:00
sum-wound-no-clock = is no clock time
sum-wound-time = time
sum-wound-time-formula = a deadline counts from the earliest moment it may have happened, a watch from the latest
sum-wound-hours-since = hours since
sum-wound-reckoned-at = reckoned at
# $weekday (text): the day of the week
# $at (text): date and time of day
sum-wound-at = { $weekday } { $at }
# $at (text): when it ended
sum-wound-past = { $at } (past)
sum-wound-past-window = A past window changes what is done, never how soon a vet is needed.
