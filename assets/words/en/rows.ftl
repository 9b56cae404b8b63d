### The lines one chooses from.

# $label (text): what the line does
# $value (text): what stands now
rows-said-now = { $label } (now { $value })
# $label (text): what the line does
# $value (text): what stood last time
rows-last-time-was = { $label } (last time { $value })
# $answer (text): an answer
# $at (text): when it was given
rows-last-time-at = { $answer } (last time, { $at })
# $answer (text): an answer
rows-as-told = { $answer } (as told of her)
# $answer (text): an answer that is what somebody said shows on her
rows-said-so = { $answer } (was it this?)
# $sign (text): a sign
rows-last-time = { $sign } (last time)
rows-type-weight = type her weight
rows-type-lines = measured: type length x width
rows-add-up = add it up: drops, swabs, pools
rows-count = count them: tap a key
rows-time = time it: tap a key

# $name (text): a value by its name
# $what (text): what it is
rows-value = { $name }: ({ $what })
# $name (text): a value by its name
# $what (text): what it is
rows-value-may-lack = { $name }: (may be left out: { $what })
rows-in-full = formula, sources, cautions

# $answer (text): the answer that is fine
rows-as-always = I looked: { $answer }
rows-as-always-next = none of these: the next ones
rows-no-change = no change: go on
rows-nothing-else = nothing else of these
rows-none-now = none of these now
rows-none = none of these
rows-as-last-time = all as last time

rows-wound-shows = yes, a wound shows
rows-another-shows = yes, another one shows
rows-none-shows = none shows: leave it open
rows-wound = yes, there is a wound
rows-another = yes, another one
rows-no-wound = no wound, all looked over
rows-no-more = no more, all looked over

rows-not-here = not here
rows-here = here
rows-past-its-date = past its date
rows-how-strong = here, how strong?
rows-too-weak = too weak
rows-not-this-one = not this one
rows-check-label = check a product's label
rows-kit = what to have in the house, and why
rows-contacts = whom to call: your numbers

rows-step-ahead = still to come
rows-step-here = here
rows-step-done = done
rows-step-open = left open
rows-wounds-again = look for wounds again
rows-not-asked = not asked
rows-changes-care = not asked; changes what to do
rows-changes-nothing = not asked; can change nothing
