### The figures of a verdict: what the measures come to, what they rest on, what weighs more.

figures-heading = FIGURES, LOW TO HIGH
# $weight (text): low to high, with their units
figures-weighed = { $weight } (weighed)
# $weight (text): low to high, with their units
figures-not-weighed = { $weight } (not weighed: by build or kind)
# $weight (text): low to high, and whether she was weighed
figures-weight = Weight: { $weight }.
figures-weigh-her = Weigh her, or say what build she is: every figure gets narrower.

# $ago (text): how long ago
figures-hurt = Hurt: { $ago }.
# $time (text): a length of time
figures-ago = { $time } ago
# $least (text): a length of time
# $most (text): a length of time
figures-ago-between = { $least } to { $most } ago
# $count (number): how many
figures-minutes = { $count } min
# $count (number): how many
figures-hours = { $count } h
# $count (number): how many; fewer than two days are told in hours
figures-days = { $count } days

figures-press = Press. Reckon once it has stopped.
# $low (text): the least share of her blood, in 100
figures-blood-wide = { $low } to 100 % of her blood may be gone
# $high (text): the greatest share of her blood, in 100
figures-blood-gone = up to { $high } % of her blood gone
figures-blood-press = Blood: press. It is reckoned once the bleeding has stopped.
# $share (text): how much is gone
figures-blood = Blood: { $share }.
# $share (text): how much is gone
figures-by-what-was-seen = { $share }, by what was seen.
figures-only-outside = Only blood seen outside is counted.
# $time (text): a length of time
figures-lost-within = Lost within { $time } at most. A fast loss is the graver one.
# $lost (text): millilitres, low to high
# $had (text): millilitres, low to high
figures-lost = Lost { $lost } mL; she had { $had } mL.
# $lost (text): millilitres, low to high
# $had (text): millilitres, low to high
figures-lost-of-frail = Lost { $lost } mL; she had { $had } mL, 15 % less counted as she may be ill, old or fat.
# $blood (text): in 100 of her blood, low to high
# $weight (text): in 100 of her weight, low to high
figures-readings = All readings: { $blood } % of her blood; { $weight } % of her weight.
figures-blood-formula = Formula: lost / (weight x blood a kilogram). The most lost of the least blood decides.

# $rate (text): breaths, low to high
figures-a-minute = { $rate } a minute
# $rate (text): breaths a minute, and how they stand to what is published
figures-breaths = Breaths: { $rate }.
figures-held = Counted in the hand: it says little. Count again when she has rested.
figures-no-range = No range is published for her kind that we know of.
# $range (text): breaths, low to high
figures-range = Her kind at rest, untouched and not hot: { $range } a minute.
figures-breaths-formula = Formula: breaths x 60 / seconds, one breath more or less; several counts: all of them.
figures-no-heart = No line is drawn from heart rates: the formula by weight is wrong by a factor of two.
figures-only-how-often = This only counts how often.

# $share (text): in 100 of her weight, low to high
figures-dryness = Dryness: she lacks { $share } % of her weight in water.
figures-nothing-by-mouth = Nothing by mouth: no amount is told.
figures-nothing-lay = Nothing from a lay hand: a vet gives fluid under the skin or into a vein.
figures-water-beside = At home: water beside her, to drink by herself while she is awake and upright.
# $amount (text): millilitres, low to high
figures-lacks = For a vet or a trained hand: she lacks { $amount } mL.
figures-dryness-formula = Formula: lacking = weight x share dry; the share goes by her signs.

# $share (text): in 100 of her skin, low to high
figures-skin = Open skin: { $share } % of all her skin.
# $amount (text): millilitres, low to high
figures-skin-loses = It loses about { $amount } mL of water a day, an order of magnitude borrowed from people.
figures-skin-formula = Formula: pi/4 x length x width of each wound / (10 x W^(2/3) cm2, W in grams).
figures-only-how-much = This only sums how much is open.

figures-air-hot = Air: no heat until she breathes quietly; shade and moving air.
figures-air-room = Air: room warmth; a cold bird is brought to her own warmth at the body, no further.
# $degrees (text): degrees Celsius, low to high
# $low (number): the least damp, in 100
# $high (number): the most damp, in 100
figures-air = Air: { $degrees } °C on the warm side, { $low } to { $high } % damp, one side cooler.
figures-chick = 35 °C in its first week, about 3 less each week, not below 21.
figures-dry-first = Soaked or cold: dry her first. To 32 °C only while someone stays with her.
figures-less-a-day = Once she stands and eats: 3 °C less a day, down to the room.

# What stands beside a figure: signs of the same part of the body that it does not read.
figures-weigh-more = Other signs weigh more.
figures-may-weigh-more = What could not be told may weigh more.
figures-count-too = Other signs count as well.
