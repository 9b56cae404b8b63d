### A sum: its answer as a document, its units, and why it could not be done.

sum-heading-keep-in-mind = KEEP IN MIND
sum-heading-how = HOW
sum-heading-rests-on = RESTS ON
sum-ours = What it says to do about it: our inference, not reviewed by a vet.
# $what (text): what is taken
# $source (text): from whom, and how well it is known
# $borrowed (text): whose figure it is, or nothing
sum-rests = { $what }: { $source }{ $borrowed }.

sum-a-minute = a minute
sum-a-minute-at-rest = a minute, untouched and not hot
sum-of-her-blood = % of her blood
sum-of-her-blood-an-hour = % of her blood an hour
sum-percent-idle = % (decides nothing)
sum-of-what-air-holds = % of what air can hold
sum-degrees-warm = degrees Celsius on the warm side
sum-drops = drops
sum-weigh-it = (weigh it)
sum-times = times
sum-a-day-order = mL a day (order of magnitude)
sum-days-more = days more

# $name (text): what was asked for
# $names (text): the sums there are
sum-no-such = there is no sum `{ $name }`; there are { $names }
# $name (text): the value's name
# $example (text): how the sum is asked for
sum-missing = `{ $name }=` is missing; for example { $example }
# $name (text): the value's name
# $taking (text): the values the sum takes
sum-unknown = `{ $name }` is not a value this sum takes once; it takes { $taking }
# $name (text): the value's name
# $text (text): what was typed
# $what (text): what is wrong with it
# $example (text): what would be taken
sum-value = { $name }: `{ $text }` { $what }; for example { $name }={ $example }
# $what (text): what does not fit
# $example (text): how the sum is asked for
sum-do-not-fit = { $what }; for example { $example }
# $name (text): what the bottle says
# $why (text): why not
sum-refused = `{ $name }` is refused: { $why }; use plain salt water (the sum `saline`)
sum-stock-too-weak = the stock is weaker than what is to be made: take a stronger stock, or make a weaker one; read the bottle's strength again
sum-nothing-to-mix = stock, target and amount must each be more than nothing
sum-from-after-to = `from` comes after `to`
sum-from-to-come = `from` is still to come
sum-no-salt-water = this protocol tells no strength of salt water
sum-no-salt-water-check = what `coopside check FOLDER` says it lacks
