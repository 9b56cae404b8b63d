### What is carried out: the phone call, what ends a ban or an act, how a stock is thinned.

# The line on screen, at most eight words.
care-vet-now = Phone a vet now.
care-vet-before-moving = Phone a vet too, before moving her.
care-vet-today = Phone a vet today.
care-vet-to-be-safe = Phone a vet now, to be safe.
care-why-go = Two of you? One phones at once. Alone? Speaker on. Say what you read here. Do what stands below, then go where you are told.
care-why-go-known = Say what you read here. Do what stands below, then go where you are told.
care-why-vet-known = Say what bird, what happened, and what you read here. Ask when to come.
care-why-vet = Two of you? One phones at once. Say what bird, what happened, and what you read here. Ask when to come.
care-why-before-moving-known = Say first that it may be catching. Do as you are told.
care-why-before-moving = Two of you? One phones at once. Say first that it may be catching. Do as you are told.
care-why-to-be-safe = Open questions could still mean a vet within hours.

# What ends a ban.
# $test (text): what is seen then, as a sentence
care-until = Until: { $test }
# $test (text): what is seen then, as a sentence
care-until-vet = Until a vet says so. If none can be had: { $test }
# $because (text): why, as a sentence
care-stays = It stays forbidden: { $because }
# $because (text): why, as a sentence
care-until-vet-alone = Until a vet says so. At home it stays forbidden: { $because }

# What ends what is done for her.
# $test (text): what is seen then, as a sentence
care-go-on = Go on until: { $test }
# $test (text): what is seen then, as a sentence
care-go-on-vet = Go on until a vet says otherwise. If none can be had: { $test }
# $because (text): why, as a sentence
care-goes-on = It stays so: { $because }
# $because (text): why, as a sentence
care-go-on-vet-alone = Go on until a vet says otherwise. At home it stays so: { $because }

# How half a litre is made of a stock.
care-weak-enough = It is weak enough: use it as it is.
# $amount (text): how much, with its unit
care-thinned = { $amount } of it, boiled, hand-warm water to half a litre.
# $amount (text): how much, with its unit
care-thinned-twice = First 10 mL of it with water to 100 mL. Then { $amount } of that, boiled, hand-warm water to half a litre.
