### The top line, and where we are from head to tail.

# $bird (text): what is known of her
header-practice = PRACTICE { $bird }
# $why (text): what the disk said
header-not-kept-why = NOT KEPT: { $why }
header-not-kept = NOT KEPT
header-saving = saving
# $at (text): when
header-saved = saved { $at }
header-held-long = Held long enough. Let her rest
# $key (text): the key
header-held-long-key = Held long enough. Let her rest: { $key }
# $left (text): minutes and seconds
header-in-hand = in the hand { $left }
header-time = time
# $what (text): what went by the clock
header-is-up = { $what }: TIME IS UP
# $what (text): what went by the clock
header-ran-out = Time is up: the { $what } clock has run out.
# $bird (text): whose clock it is
# $what (text): what went by it
header-ran-out-for = Time is up for { $bird }: the { $what } clock has run out.
# $key (text): the key
header-finds-her = { $key } finds her.
header-look-now = LOOK NOW
# $key (text): the key
header-look-now-key = LOOK NOW: { $key }
# $minutes (number): how long it is until then
header-look-in = look in { $minutes } min
# $minutes (number): how long
header-with-her = { $minutes } min with her

# $count (number): how many there are
header-steps = { $count ->
    [one] { $count } step
   *[other] { $count } steps
}
# $name (text): the step
# $number (number): its number
# $count (number): how many there are
header-step = { $name }, step { $number } of { $count }
