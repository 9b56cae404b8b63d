### The debrief of a practice go: kind in tone, the one thing to do better first.

debrief-heading-next-time = FOR NEXT TIME, ONE THING
debrief-heading-verdict = YOUR VERDICT BESIDE THE REFERENCE
debrief-heading-truth = WHAT WAS THE MATTER
debrief-heading-harm = WHAT YOU DID THAT HARMS
debrief-heading-seen = WHAT YOU SAW
debrief-heading-order = WHAT CAME FIRST
debrief-heading-turned = WHAT CAME OF IT
debrief-heading-mentor = A MENTOR WOULD SAY
debrief-heading-practice = PRACTICE
debrief-practice = A scripted bird: invented, and hurt by nobody. The reference is this program's own, no vet's.
# $what (text): what the lesson trains
debrief-trains = What it trains: { $what }.

# $act (text): what was done
debrief-leave = Leave this off: { $act }
# $act (text): what is done first
debrief-first = Before any other look: { $act }
# $topic (text): what is looked for
debrief-look-for = Look for this: { $topic }.
# $ask (text): the question
debrief-question-was = The question was: { $ask }
debrief-too-low = You saw what there was. It means more than you said: see the reasons below.
debrief-danger-first = Begin with the danger signs, whatever else strikes the eye.
debrief-watch-first = Watch her from where you stand before you take her in the hand.
debrief-put-down = Put her down sooner. What is not seen in three minutes can wait until she has rested.
debrief-too-high = On the safe side. What was there asks for a little less.
debrief-look-over = Look her over to the end: part the feathers from neck to tail. A wound was not found.
# $topic (text): what was misread
debrief-misread = Look at this once more: { $topic }. It was read as something it is not.
debrief-whole-bird = The verdict is right. Next time look at the whole bird: a wound hides.
debrief-not-looked-over = She was not looked over for wounds to the end.
# $steps (text): parts of her, ended as a sentence
debrief-nobody-looked = Nobody looked at: { $steps }
debrief-harder = Nothing. That was well done: take a harder one.

debrief-need = Need
debrief-humane = Humane end
debrief-authority = Animal-health authority
# $scale (text): which scale
# $is (text): the right rung
debrief-said-so = { $scale }: { $is }. You said so too.
# $scale (text): which scale
# $is (text): the right rung
# $said (text): the rung that was said
debrief-said-less = { $scale }: { $is }. You said less: { $said }.
# $scale (text): which scale
# $is (text): the right rung
# $said (text): the rung that was said
debrief-said-more = { $scale }: { $is }. You said more: { $said }.
debrief-nothing-asks-for-more = Nothing that was there to be found asks for more.
# $what (text): what to do in its place
debrief-instead = Instead: { $what }

debrief-no-look = No look at her was taken, or none was written down.
debrief-no-sign = There was no sign to be seen.
# $right (number): how many were seen as they are
# $count (number): how many there were
debrief-seen-as-they-are = Seen as they are: { $right } of { $count } signs.
# $found (number): how many were found
# $count (number): how many there are
debrief-wounds-found = Wounds found: { $found } of { $count }.
# $topic (text): what was asked
# $is (text): what is so
# $said (text): what was said
debrief-milder = { $topic }: { $is }; you took it for less: { $said }.
# $topic (text): what was asked
# $is (text): what is so
# $said (text): what was said
debrief-otherwise = { $topic }: { $is }; you said: { $said }.
# $topic (text): what was asked
# $is (text): what is so
debrief-could-not-tell = { $topic }: { $is }; you could not tell.
# $topic (text): what was asked
# $is (text): what is so
debrief-unlooked-decides = { $topic }: { $is }; you did not look, and it decides.
# $topic (text): what was asked
# $is (text): what is so
debrief-unlooked = { $topic }: { $is }; not looked at.

debrief-danger-came-first = The danger signs came first: right.
debrief-danger-not-first = The danger signs did not come first.
debrief-watched-first = She was watched before she was taken in the hand: right.
debrief-not-watched-first = She was taken in the hand before she had been watched.
debrief-not-held = She was not held.
# $held (text): minutes and seconds
# $most (text): minutes and seconds
debrief-held-long = Held for { $held } at one stretch; { $most } is the most she should be.
# $held (text): minutes and seconds
# $most (text): minutes and seconds
debrief-held-right = Held for { $held } at most at one stretch, of { $most }: right.
# $act (text): what is done first
debrief-never-done = This was never done: { $act }
# $count (number): how many looks
# $act (text): what is done first
debrief-looks-before = { $count ->
    [one] One look came before this: { $act }
   *[other] { $count } looks came before this: { $act }
}
# $shows (text): what was seen then
debrief-at-once = At once: { $shows }
# $minutes (text): how many minutes
# $shows (text): what was seen then
debrief-after-minutes = After { $minutes } min: { $shows }
