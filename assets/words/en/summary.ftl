### The running summary beside or above what is asked.

summary-so-far = SO FAR
summary-do-now = DO NOW
summary-figures = FIGURES
summary-never-heading = NEVER
summary-why = WHY
# $count (number): how many more
summary-more = and { $count } more
# $count (number): how many more
# $key (text): the key that shows them
summary-more-key = and { $count } more: { $key }
# $what (text): what is to be done
summary-act = DO: { $what }
# $key (text): the key that shows it
summary-act-key = DO: { $key } shows what
# $what (text): what is to be done after it
summary-then = THEN: { $what }
# $what (text): what is never done
summary-never = NEVER: { $what }

# $need (text): how soon a vet, or how grave
summary-need-so-far = { $need } so far
# $need (text): how soon a vet, or how grave
summary-need-not-settled = Not settled: at least { $need }
# $need (text): how soon a vet, or how grave
summary-need-at-least = { $need }, at least
# $need (text): how grave
summary-need-no-vet = { $need } at least. Phone any vet.
summary-blood = blood
summary-breaths = breaths
summary-dry = dry
summary-skin = open skin
# $share (text): a share of her weight
summary-lacks = lacks { $share } of her weight

summary-humane-may = Humane end may come into question
summary-humane-unless = Humane end advised unless a vet can act
summary-humane-advised = Humane end advised: phone
summary-authority-ask = May be catching: gloves, ask authority
summary-authority-call = Call the authority now; move no bird

# $topic (text): what is asked
summary-telling = Most telling now: { $topic }
# $topic (text): what is asked
# $key (text): the key that leads there
summary-telling-key = Most telling now: { $topic } ({ $key })
summary-look-over = the look-over for wounds
summary-look-can-change = what is asked now can change this
summary-no-change = No answer can change this now
summary-enough = Enough to act on. The rest can wait.
summary-wound-could-change = a wound could still change this
summary-many-could-change = many answers could change this
# $count (number): how many questions
summary-could-change = { $count ->
    [one] { $count } question could change this
   *[other] { $count } questions could change this
}
# $count (number): how many questions
summary-could-change-or-wound = { $count ->
    [one] { $count } question or a wound could change this
   *[other] { $count } questions or a wound could change this
}
