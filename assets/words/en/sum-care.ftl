### Sums about keeping her alive: fluids and warmth.

sum-care-fluids = fluids
sum-care-by-mouth-formula = no sum: nothing may go by mouth
sum-care-by-mouth = by mouth
sum-care-nothing = NOTHING
sum-care-because = because
sum-care-a-vet-can = A vet can give fluid under the skin or into a vein. Warm first, then fluid, then food.
sum-care-fluids-formula = lacking = weight x share dry; then 50 or 48 mL/kg a day
sum-care-at-home = at home
sum-care-too-dry = nothing: so dry a bird needs a vet at once, who gives it under the skin or into a vein
sum-care-dish = a shallow dish beside her, and she drinks by herself: offer, never pour, no drops into her beak
# $first (text): millilitres on the first day
# $second (text): millilitres on the second
sum-care-days = { $first } mL on day one, { $second } mL on day two
sum-care-lacking = lacking
sum-care-one-plan = one plan
sum-care-other-plan = the other plan
sum-care-first-by-tube = TRAINED HAND, first by tube
sum-care-never-above = TRAINED HAND, never above
# $volume (text): millilitres
sum-care-at-one-time = { $volume } mL at one time
sum-care-for-a-vet = These amounts are FOR A VET OR A TRAINED HAND, by tube or needle, at 38 to 39 degrees.
sum-care-amounts = amounts
sum-care-only-trained = only for a vet or a trained hand: hand=trained
sum-care-only-while = Only while she is awake, upright and swallows. Not drunk in an hour: phone a vet. Water stays beside her.
sum-care-sources-disagree = The two sources disagree; both are shown.

sum-care-warmth = warmth
sum-care-warmth-formula = chick: 35 - 2.8 x (week - 1), not below 21; others step down 3 degrees a day
sum-care-air = air
sum-care-dampness = dampness
sum-care-no-heat = no extra heat: room warmth; for a hot bird shade and moving air
sum-care-always = always
sum-care-cooler-side = a cooler side she can go to
sum-care-day-by-day = once she stands and eats, day by day
sum-care-dry-her = Dry her first. A towel between her and any heat. No water bowl in a box that moves.
sum-care-to-32 = To 32 degrees only while someone stays with her; alone in a box no more than 30.
sum-care-stop = Stop if she pants or holds her wings off.
