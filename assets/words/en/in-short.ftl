### A verdict in few words: how soon, whom, why.

in-short-heading = IN SHORT
# $need (text): how soon a vet
in-short-at-least = { $need }, at least.
# $need (text): how soon a vet
in-short-so-far = { $need }, as far as was looked.
# $finding (text): what nobody could tell, and counts
in-short-not-ruled-out = Maybe: { $finding }
in-short-authority-ask = May be catching: ask the authority.
in-short-authority-call = May be catching: call the authority first.
in-short-humane-may = Ask if a humane end is kinder.
in-short-humane-unless = Ask for a humane end if no vet can act.
in-short-humane-advised = A humane end is advised. Talk to a vet.
