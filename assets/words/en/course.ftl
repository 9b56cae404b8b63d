### A course: the plan laid out in time, a card a stage.

course-first = NOW
course-until-seen = UNTIL SHE IS SEEN
course-next-hours = THE NEXT HOURS
course-today = TODAY
course-days = THE DAYS
course-humane = HUMANE END
course-authority = ANIMAL-HEALTH AUTHORITY
# $stage (text): a stage
# $number (number): which of its cards
# $of (number): how many cards it has
course-card-of = { $stage }, { $number } OF { $of }

# When a card opens.
course-opens-at-once = at once
course-opens-ticked = when that is done
course-opens-back = once she is back from the vet
course-opens-tomorrow = from tomorrow on

# $when (text): when it opens
course-opens = Opens { $when }.
# $heading (text): what it is of
# $number (number): which of the cards
# $of (number): how many there are
course-place = { $heading } - card { $number } of { $of }
# $heading (text): what the next card is of
course-next = Done. Next: { $heading }.
# $at (text): when
# $heading (text): what the card is of
course-opened = { $at }: { $heading } begins.
# $bird (text): the bird
# $told (text): when, and what is asked
course-due = { $bird }, { $told }
# $bird (text): the bird
# $told (text): when, and what is asked
course-title-due = DUE: { $bird }, { $told }
course-all-done = Every card is done. The looks go on.
course-all-done-go = All is done: go now, if you have not.
course-no-line = No such line on this card.

# $act (text): what is never done, going on
course-never = Never { $act }
# $act (text): what is never done, going on
course-vet-only = Never { $act } Only a vet may.
# $at (text): when
# $asked (text): what is looked for then
course-at = { $at }: { $asked }
# $at (text): when
# $asked (text): what is looked for then
course-at-unseen = Still at home { $at }? { $asked }
# $at (text): when
# $what (text): what is looked at
course-look = { $at } look in: { $what }
# $at (text): when
# $what (text): what is looked at
course-look-unseen = Still at home { $at }? Look in: { $what }
course-look-worse = worse in any way? Phone.
course-nothing = Quiet and dark. Nothing else is due.

course-humane-unseen = It rests on what nobody saw: look, by eye only.
course-humane-may = It may come into question.
course-humane-unless = Advised unless a vet can act in time.
course-humane-advised = It is advised. Talk to a vet at once.
course-authority-ask = It could be notifiable: ask first.
course-authority-call = It could be notifiable: call now.

# The caution on a card, at most ten words; the full one is one key away and on every output.
course-caution = No vet has reviewed this. Vet and law first.
