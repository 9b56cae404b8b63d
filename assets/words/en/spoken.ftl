### What is said line by line, for who hears the program or reads it on a terminal that cannot draw.

# $key (text): the key that gives an answer
# $says (text): the answer
spoken-answer = { $key }. { $says }
# $line (text): an answer
spoken-marked = { $line } (your answer so far)
# $line (text): a line of a card
spoken-done = { $line } Done.
# $line (text): a line of a card
# $at (text): when it was done
spoken-done-at = { $line } Done at { $at }.
# $need (text): how soon a vet is needed
spoken-so-far = So far: { $need }
# $keys (text): each key with what it does
spoken-also = Also: { $keys }.
# $key (text): a key
# $does (text): what it does
spoken-key = { $key }, { $does }
# $text (text): what was typed
spoken-typed = Typed so far: { $text }
# $key (text): the key that goes back
spoken-type-it = Type it, then enter. { $key } goes back.
# $line (text): the line one has moved to
spoken-on-line = Now on: { $line }
spoken-again = again
spoken-clock = clock
# $again (text): the word that says the screen again
# $clock (text): the word that tells the time left
spoken-begins = Type an answer's key, then enter. { $again }: says it again. { $clock }: the time left.
# $typed (text): what was typed
spoken-not-understood = "{ $typed }" means nothing here. Type one key, then enter.
spoken-tap = Enter at each breath.
# $bird (text): whose clock it is
# $left (text): the time left
# $what (text): what goes by it
spoken-left = { $bird }: { $left }. { $what }.
# $bird (text): whose clock it is
# $what (text): what goes by it
spoken-up = { $bird }, { $what }: the time is up.
spoken-no-clock = No clock runs.
