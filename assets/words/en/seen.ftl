### A figure as it was seen: drops, pads, pools, breaths, lines.

# $count (number): how many drops
seen-drops = { $count ->
    [one] { $count } drop
   *[other] { $count } drops
}
# $count (text): how many pads
# $pad (text): which pad
# $full (text): how full
seen-pads = { $count } x { $pad }, { $full }
# $wet (text): grams
# $dry (text): grams
seen-weighed = weighed { $wet } g wet, { $dry } g dry
# $width (text): how wide it is
# $floor (text): on what
seen-pool = pool { $width } across, on { $floor }
# $low (text): millilitres
# $high (text): millilitres
seen-between = { $low } to { $high } ml
# $drops (text): how many
# $seconds (text): in how many seconds
# $minutes (text): for how many minutes
seen-dripping = { $drops } drops in { $seconds } s, for { $minutes } min
# $breaths (text): how many
# $seconds (text): in how many seconds
seen-count = { $breaths } in { $seconds } s
# $breaths (text): how many
# $seconds (text): in how many seconds
seen-count-held = { $breaths } in { $seconds } s held

seen-thin-pad = thin pad, 10 cm
seen-small-swab = small thick swab, 5 cm
seen-thick-pad = thick pad, 10 cm
seen-any-pad = pad, 10 cm, thin or thick
seen-cloth = cloth, 30 cm
seen-towel = towel, 45 cm
seen-spotted = spotted
seen-half-red = half red
seen-red-all-over = red all over
seen-full-dripping = dripping
seen-smooth = tile, concrete or plastic
seen-soil = soil or litter
