### A verdict in few words: how soon, whom, why.

in-short-heading = IN SHORT
# $need (text): how soon a vet
in-short-at-least = { $need }, at least.
# $need (text): how soon a vet
in-short-so-far = { $need }, as far as was looked.
in-short-authority-ask = May be catching: ask the authority.
in-short-authority-call = May be catching: call the authority first.
in-short-humane-may = Ask, too, whether a humane end is kinder.
in-short-humane-unless = Ask for a humane end if no vet can act.
in-short-humane-advised = A humane end is advised. Talk to a vet.
