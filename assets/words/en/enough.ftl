### Enough is known to act on.

enough-act-first = Enough to act on: these first. b goes on asking.
# $steps (text): the parts of her nobody looked at
enough-not-looked = Not looked at yet, tell the vet: { $steps }
enough-still-here = Still here? Look her over now. Hands off if she gasps.
