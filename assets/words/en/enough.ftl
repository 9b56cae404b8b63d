### Enough is known to act on.

enough-act-first = Enough known: do these. b: ask on.
enough-not-all-looked = Not all of her was looked at: tell the vet.
# $steps (text): the parts of her nobody looked at
enough-not-looked = Not looked at yet, tell the vet: { $steps }
enough-still-here = Still here? Look her over now. Hands off if she gasps.
