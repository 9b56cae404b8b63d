### Her days: what is due, what has changed, how she has gone, what a vet said and how it ended.

days-heading-ended = HOW IT ENDED
days-heading-looks = LOOKS
days-heading-how-grave = HOW GRAVE, OVER TIME
days-heading-how-soon = HOW SOON A VET, OVER TIME
days-heading-weight = WEIGHT
# $number (number): the wound's number, from 1
days-heading-wound = SIZE OF WOUND { $number }
days-heading-vet = A VET SAID
days-heading-flock = THE OTHER BIRDS
# $at (text): a moment, in capitals
days-heading-since = SINCE { $at }

days-recovered = recovered
days-died = died
days-humane-end = humane end
days-moved-on = moved on
days-closed = Her case is closed; nothing is due. f, then 8, opens it again.
days-as-it-stood = What follows is as it stood then.
days-catching-ask = It may be catching: gloves; ask your animal-health authority before you move or bury her.
days-catching-call = Call your animal-health authority now, and move no bird, dead or alive.

days-since-not-worse = Since then nothing graver was found. What was found before still stands.
days-since-worse = Since then she is WORSE: phone the vet again.
days-vet-first = Where this differs from what stands below, the vet's word goes first.
days-vet-asked = a vet was asked since
days-worse-since = WORSE since a vet was asked

days-not-named = a bird not named
days-not-examined = not examined
days-not-to-the-end = not examined to the end
# $need (text): how soon a vet, or how grave
days-so-far = not examined to the end; so far { $need }
# What goes by a clock that no act goes by, in a word.
days-time = time

# $at (text): a moment
days-examine = Examine her now: not examined to the end since { $at }.
# $at (text): a moment
days-look-now = Look now: due since { $at }.
# $at (text): a moment
days-next-look = Next look { $at }.
# $at (text): a moment
days-last-looked-now = Last looked at { $at }. Look now.
# $at (text): a moment
days-examine-now = EXAMINE NOW: not examined to the end since { $at }.
# $at (text): a moment
days-due-now = LOOK NOW: due since { $at }.
# $at (text): a moment
days-last-looked = Last looked at { $at }.
# $times (text): moments, in a list
days-ahead = To come: { $times }.

days-nothing-different = Nothing that was asked again is different.
days-worse = WORSE
days-changed = changed
days-better = better
# $answer (text): what was answered
days-before = before: { $answer }
days-not-asked-before = not asked before
# $way (text): which way it went
# $topic (text): what was asked
# $now (text): what is answered now
# $before (text): what was answered before
days-change = { $way }: { $topic }: { $now } ({ $before })

# $at (text): a moment
# $weight (text): her weight
# $share (number): in 100 of her best
days-weighed = { $at } { $weight }, { $share } in 100 of her best
days-no-gain = No gain or loss from day to day.
# $grams (text): how many, with their sign
days-per-day = { $grams } g a day.
days-best-weight = She is at her best weight.
# $step (text): how far it has gone, and what it calls for
days-loss = Her loss is { $step }.
days-weights-known = Up to 3 in 100 is noise: a full crop, or an egg (our line). The slope is Theil and Sen's.

# $at (text): a moment
# $lines (text): its length and width
# $low (number): the least area
# $high (number): the greatest area
days-size = { $at } { $lines }: { $low } to { $high } mm2
# $low (text): millimetres
# $high (text): millimetres
days-edge-in = edge in by { $low } to { $high } mm
# $low (text): millimetres
# $high (text): millimetres
days-edge-out = edge OUT by { $low } to { $high } mm
# $out (text): millimetres
# $within (text): millimetres
days-edge-between = edge between { $out } mm out and { $within } mm in
# $moved (text): how far its edge came in or went out
# $count (number): how many days
days-moved-in = { $count ->
    [one] { $moved } in { $count } day
   *[other] { $moved } in { $count } days
}
# $low (number): the fewest
# $high (number): the most
days-may-close = may close in { $low } to { $high } days more
days-grew = it GREW after the third day: a vet
days-not-smaller = not clearly smaller by the seventh day: ask a vet
days-sizes-known = A ruler reads to 2 mm. The forecast is from wounds of people (Gilman 1990, from memory).

# A bird whose case cannot be read, in the list.
days-unread = cannot be read here
# $unread (text): that it cannot be read
# $told (text): how soon she needed a vet, as it was told last
days-unread-last = { $unread }; last told: { $told }
