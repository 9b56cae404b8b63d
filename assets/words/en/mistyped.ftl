### What is wrong with something typed. Most of it goes on after what was typed.

# $text (text): what was typed
# $what (text): what is wrong with it
# $example (text): what would be taken
mistyped-wrong = `{ $text }` { $what }; for example { $example }
# $what (text): what is wrong
# $example (text): what would be taken
mistyped-nothing-typed = nothing typed: { $what }; for example { $example }
# $one (text): a weight
# $other (text): another one
# $last (text): a third one
mistyped-any-of = { $one }, { $other } or { $last }

mistyped-no-number = is no number we can read
mistyped-no-unit = has no unit
mistyped-strange-unit = has no unit we know
mistyped-two-ways = can be read in two ways; leave the point or comma out
mistyped-not-one = is more than one amount; write the larger unit first
mistyped-nothing = must be more than nothing
# $least (text): millilitres
# $most (text): millilitres
# $us (text): what is typed before a measure of the United States
# $imperial (text): what is typed before an imperial one
# $unit (text): a unit that is the same everywhere
mistyped-differs = is { $least } to { $most } mL, by the country it comes from: type it in { $unit }, or with `{ $us }` or `{ $imperial }` before it
mistyped-more-than-all = is more than 100 %
mistyped-too-dry = is more than a living bird can lack (15 %)
mistyped-over-ten-years = is longer than ten years
mistyped-over-a-minute = is longer than a minute
mistyped-no-whole-number = is no whole number
mistyped-too-many = is too many to have been counted
# $words (text): what can be typed
mistyped-not-one-of = is not one of { $words }
mistyped-no-birds-weight = is outside 5 g to 30 kg; look at the unit again
mistyped-no-weight = is not a weight
mistyped-too-heavy = is more than 30 kg; look at the unit again

mistyped-says-nothing = says nothing
mistyped-no-dry-weight = lacks the dry weight
mistyped-lighter-wet = is lighter wet than dry
mistyped-pool-too-wide = is wider than two metres
mistyped-no-blood = is neither drops, pads, a pool, a weighing nor spoons
mistyped-no-count = is no count of breaths
mistyped-not-counted-over = is outside 5 to 300 seconds
mistyped-no-breath = breaths seen: is she alive? Look again now
mistyped-not-two-lines = needs length and width, two lines across the wound
mistyped-line-too-long = is larger than half a metre

# $kind (text): her kind
# $grams (text): what the heaviest weighs
mistyped-kind-too-heavy = is more than twice what the heaviest { $kind } weighs, { $grams } g; look at unit and kind again
# $kind (text): her kind
# $grams (text): what the lightest weighs
mistyped-kind-too-light = is less than half of what the lightest { $kind } weighs, { $grams } g; look at unit and kind again; a young bird goes as a chick

# $name (text): what was typed
# $command (text): what lists them
mistyped-no-supply = `{ $name }` is no supply this program knows; `{ $command }` lists them
# $name (text): what was typed
# $near (text): the nearest that is known
# $command (text): what lists them
mistyped-no-supply-near = `{ $name }` is no supply this program knows; nearest: `{ $near }`; `{ $command }` lists them
# $date (text): what was typed
# $month (text): a month as it is typed
# $day (text): a day as it is typed
mistyped-no-date = `{ $date }` is no date; write it as { $month } or { $day }
# $name (text): the supply, by its name in files
mistyped-no-strength = `{ $name }` has no strength; leave it out
