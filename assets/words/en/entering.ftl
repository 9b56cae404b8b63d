### Numbers that are entered: blood added up piece by piece, breaths tapped, a vein timed.

entering-blood = What blood do you see?
entering-blood-look = One thing after the other. Leave cloths where they are.
entering-other-blood = What other blood do you see?
entering-sort = Which pad or cloth?
entering-sort-look = The nearest in size.
entering-full = How red is it?
entering-full-look = By eye. Leave a cloth that presses where it is.
entering-how-many = How many of them?
entering-ground = What does it lie on?
entering-width = How wide is the pool?
entering-width-look = Beside a coin and a hand. A long pool: take its middle width.
entering-measure = Which spoon or cup would it fill?
entering-drops = How many drops?
entering-wet = What does the cloth weigh, wet?
entering-dry = What does such a cloth weigh, dry?
entering-rate = How many drops in 15 seconds?
entering-minutes = For how many minutes so far?

entering-by-drops = drops
entering-by-pads = pads, swabs or cloths
entering-by-pool = a pool on the floor
entering-by-measures = spoons or cups full
entering-by-weight = a cloth, weighed wet and dry
entering-by-rate = it drips on, or did for a while
entering-all = that is all
entering-narrower = narrower
entering-wider = wider
entering-much-wider = much wider
# $centimetres (number): how wide
entering-take-width = take it: { $centimetres } cm
entering-teaspoon = teaspoon, 5 mL
entering-tablespoon = tablespoon, 15 mL
entering-egg-cup = egg cup, 40 mL
entering-half-cup = half a cup, 120 mL
entering-cup = cup, 240 mL

# $typed (text): what was typed
# $example (text): what would be taken
entering-heavier-dry = `{ $typed }` is heavier dry than it was wet; for example { $example }
# $typed (text): what was typed
# $example (text): what would be taken
entering-none = `{ $typed }` must be one or more; for example { $example }

# $count (number): how many pieces do not show
entering-before = { $count } before, and
entering-with-this = with this
# $seconds (number): how long it still runs
entering-to-go = { $seconds } s to go. Space at every breath.
# $seconds (number): how long a count runs
entering-begin = Space as one breath begins: then { $seconds } s run.
# $seconds (number): how long a count runs
entering-seconds = { $seconds } s
entering-no-breath = No breath tapped. Is she alive? Look again now.
# $number (number): which count
# $breaths (number): how many breaths
# $seconds (number): in how many seconds
entering-count = count { $number }: { $breaths } in { $seconds } s
# $number (number): which count
# $breaths (number): how many breaths
# $seconds (number): in how many seconds
entering-count-held = count { $number }: { $breaths } in { $seconds } s, in the hand
entering-held = In the hand it says little: let her rest.
entering-once-more = Count once more to be surer; enter takes it.
entering-vein-full = Space when it is full again.
entering-vein-took = Enter takes it; space begins again.
entering-vein = Space as you let go of the vein.
