### What goes by the clock: a step of the plan, an instruction, the clock of another bird.

clock-runs = Its clock runs already.
clock-nothing = Nothing here goes by the clock.
clock-started = The clock runs, above. It rings when the time is up; t ends it.
clock-ended = The clock is ended.
# $what (text): what goes by it
# $bird (text): whose it is
clock-ended-of = The { $what } clock of { $bird } is ended.
# $bird (text): whose it is
# $what (text): what goes by it
clock-title = TIME IS UP: { $bird }, { $what }
# $what (text): what goes by it
# $bird (text): whose it is
# $at (text): when
clock-ran-out = The { $what } clock of { $bird } ran out at { $at }.
# $count (number): how many more
clock-more = And { $count } more.

# $what (text): what is to be done
clock-not-done = Not done yet: { $what }
# $left (text): minutes and seconds
clock-still-to-go = { $left } were still to go: keep on with it.
# $by (text): by how much
clock-set-on = This machine's clock was set on by { $by }. What runs for her goes on as it was.
# $by (text): by how much
clock-set-back = This machine's clock was set back by { $by }. What runs for her goes on as it was.
clock-presses-on = Keep pressing: all else waits until the time is up.
clock-runs-on = Its clock runs on, above.
# $key (text): the key
clock-goes-back = { $key } goes back to it.

# $left (text): minutes and seconds
clock-to-go = { $left } to go
clock-up = Time is up.
# $what (text): what is never done
clock-never = Never: { $what }
# $left (text): minutes and seconds
clock-beside-to-go = By the clock: { $left } to go.
clock-beside-up = By the clock: its time is up.
clock-beside-runs = It runs already.
# $minutes (number): how long it takes
clock-beside = By the clock: { $minutes } min.
# $key (text): the key
clock-key-ends = { $key } ends it.
# $key (text): a key
clock-key-asks = { $key }: look, and say what came of it.
# $key (text): the key
clock-key-starts = Press { $key }.
# $key (text): the key
clock-key-moves = Move here, then { $key }.
