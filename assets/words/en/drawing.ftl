### What stands under a drawing.

drawing-arrows = Arrows move over her, enter chooses. ! means: no liquid goes in here.
# $coin (text): how wide a coin is
# $hand (text): how long a hand is
# $pool (text): how wide the pool is
drawing-pool = coin { $coin }, hand { $hand }, pool { $pool }
drawing-weights = o weighed; . slope; below - it is more than noise
drawing-sizes = o area; between - and . by what a ruler can tell
# $days (text): how many
drawing-first-day = { $days } d
# $days (text): how many
drawing-last-day = { $days } days
