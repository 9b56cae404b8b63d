### Sums about the whole bird: her weight, her blood, her breath, her weight over days.

sum-body-weight = weight
sum-body-weight-formula = 1 lb = 453.59237 g, 1 oz = 28.349523125 g, exact; rounded to the gram
sum-body-in-grams = in grams
# $build (text): the build
# $typed (text): how it is typed
sum-body-of-build = { $build } (build={ $typed })
sum-body-by-eye = By eye the weight is off by nearly half. A kitchen scale, or a luggage scale with a bag, is better.

sum-body-blood = blood
sum-body-blood-formula = lost / (weight x blood a kilogram); the most lost of the least blood decides
sum-body-decides = decides
sum-body-gone = gone
sum-body-of-her-weight = of her weight
sum-body-spilt = lost
sum-body-all-her-blood = all her blood
sum-body-frail = Counted as 15 % less at the low end, as she may be ill, old or fat; frail=no takes that back.
sum-body-how-fast = how fast
sum-body-by-middle = by the middle volume
sum-body-no-cells = is no share of packed cells, 5 to 70 in 100
sum-body-cells = packed cells once refilled, for a vet
sum-body-still-bleeds = Does she still bleed? Press now. No sum says that it may go on.
sum-body-eyes-miss = Eyes miss much: people under-read large pools. Weigh cloths wet and dry where you can.
sum-body-common-rule = The common rule of a tenth of body weight gives more blood, so it would say less is gone; the lower figure decides.

sum-body-breaths = breaths
sum-body-breaths-formula = count x 60 / seconds, one breath more or less; several counts: all of them
sum-body-rate = rate
sum-body-outer = outer bound, decides nothing
sum-body-at-rest = her kind at rest
sum-body-no-range = no range is published that we know of
sum-body-against = against it
sum-body-by-weight = a resting bird of her weight, about
# $rate (text): breaths a minute
sum-body-by-weight-rate = { $rate } a minute (decides nothing)
sum-body-heat = Sixty a minute or more: a hen is past her comfort, by heat or by illness. Shade, and count again.
sum-body-in-hand = Counted in the hand: it says little. Set her down, wait five minutes, count again.
# $air (text): degrees
sum-body-warm-air = At { $air } degrees the air alone quickens a hen: her comfort ends at about 24.
sum-body-held-faster = Held birds breathe faster: parrots twice as fast after 15 minutes. Count before you touch her.
sum-body-no-heart = No line is drawn from heart rates: the formula by weight is wrong by a factor of two, either way.
sum-body-no-air = is no air temperature from -40 to 60 degrees Celsius

sum-body-trend = trend
sum-body-trend-formula = median of the slopes between every two weighings (Theil and Sen); loss = (heaviest before - last) / heaviest
sum-body-no-day = is not day=weight
sum-body-out-of-order = comes before the one it stands after, or is ten years on
sum-body-too-few = holds fewer than two weighings
sum-body-means = means
sum-body-gained = gained
sum-body-lost = lost
# $share (text): percent
# $day (number): the day she was heaviest
sum-body-since = { $share } % since day { $day }, her heaviest
sum-body-a-day = a day
sum-body-same-hour = Weigh at the same hour with an empty crop.
sum-body-an-egg = An egg of 60 g is about 3 % of a hen.
