### In what a protocol of one's own differs from the shipped one, spoken of as "yours".

differences-question = question
differences-answer = answer
differences-rule = rule
differences-action = action
differences-ban = ban
differences-conflict = conflict
differences-ruling-out = ruling-out
differences-instruction = instruction
differences-protocol = protocol
differences-exclusion = exclusion
# $sort (text): which sort of thing
# $key (text): its key
# $what (text): what differs
differences-line = { $sort } `{ $key }` { $what }

differences-lacking = is not in yours
differences-nobody-asked = is not in yours: nobody is asked it
differences-gone = is gone from yours
differences-only-yours = is only in yours
differences-not-compared = is only in yours: birds it rules out were not compared
# $answer (text): the answer's key
differences-answer-lacking = `{ $answer }` is not among the answers of yours
# $answer (text): the answer's key
differences-answer-only-yours = the answer `{ $answer }` is only in yours: birds it is given for tell the shipped one nothing by it
# $say (text): the words
# $yours (text): an answer's key
# $shipped (text): an answer's key
differences-answer-moved = the words "{ $say }" are `{ $yours }` in yours and `{ $shipped }` in the shipped one
# $answer (text): the answer's key
# $yours (text): its words
# $shipped (text): its words
differences-answer-reads = `{ $answer }` reads "{ $yours }" in yours, "{ $shipped }" in the shipped one
differences-order = its answers stand in another order in yours: what is worse has changed
differences-no-order = its answers have no order in yours
differences-asked-otherwise = is asked in other words
# $scale (text): which scale
# $yours (text): a rung
# $shipped (text): a rung
differences-less-far = leads less far, { $scale }: { $yours } instead of { $shipped }
# $kind (text): the kind of bird it was measured in
differences-not-borrowed = no longer says that its figure is borrowed from { $kind }
# $yours (text): how well it is said to be known
# $shipped (text): how well it is said to be known
differences-claims = claims "{ $yours }"; the shipped one says "{ $shipped }"
# $source (text): the source's key
differences-advice-of = gives as advice of `{ $source }` what the shipped one calls its own inference
# $action (text): the action's key
differences-ban-not-kept = no longer keeps the ban on `{ $action }` until a vet's word
# $action (text): the action's key
differences-forbids-not = no longer forbids `{ $action }`
# $action (text): the action's key
differences-tells-not-to-do = no longer tells to do `{ $action }`
# $action (text): the action's key
differences-tells-not = no longer tells `{ $action }`
differences-later = has to be acted on later, or at no set hour
# $system (text): a part of the body
# $grade (text): how grave the shipped one calls it
differences-less-grave = calls { $system } less than { $grade }
differences-reason-otherwise = gives its reason in other words
differences-not-at-once = no longer comes before any phone call
differences-later-in-plan = stands later in the plan
differences-left-out = is said to do less harm where it is left out
differences-no-ban = has no ban any more
differences-told-otherwise = is told in other words
# $yours (text): what ends it
# $shipped (text): what ends it
differences-ends = ends otherwise: "{ $yours }" in yours, "{ $shipped }" in the shipped one
differences-bars-less = bars less than in the shipped one
differences-broken = is said to do less harm where it is broken
# $action (text): the action's key
differences-stands-not-back = no longer stands back for `{ $action }`
# $action (text): the action's key
differences-goes-not = no longer goes where `{ $action }` is forbidden
differences-no-phone = no longer says whom to phone
differences-asks-nothing = asks nothing once it was carried out
# $yours (text): seconds
# $shipped (text): seconds
differences-held = a bird may be held { $yours } s; the shipped one says { $shipped } s
differences-night = the dark hours are longer, or less keeps her looked at in them
differences-withheld-otherwise = eggs and meat are withheld in other words

differences-need = need
differences-humane = humane end
differences-authority = authority
# $scale (text): which scale
# $yours (text): a rung
# $shipped (text): a rung
differences-lower = { $scale }: { $yours } instead of { $shipped }
# $yours (text): a rung
# $shipped (text): a rung
differences-harsher = humane end: { $yours }, where the shipped one says { $shipped }
# $key (text): a key
# $say (text): what it says
differences-key = `{ $key }` ({ $say })
# $key (text): a key
differences-key-alone = `{ $key }`
# $action (text): an action
differences-ban-lost = does not forbid { $action }
# $action (text): an action
differences-may-not-be = tells to do { $action }, which the shipped one keeps from her
# $action (text): an action
differences-missing = does not tell to do { $action }
# $sign (text): a sign
differences-watch = does not watch for { $sign }
# $every (text): minutes
# $until (text): an hour
differences-looks = does not look at her every { $every } min until hour { $until }, or sooner and as long
differences-slept = leaves her in the dark for a night, with no look
# $question (text): a question
differences-not-asked = does not ask { $question }
# $question (text): a question
differences-not-first = does not ask { $question } first of all
# $question (text): a question's key
differences-not-shown = does not fill the screen with the instruction that { $question } calls up
# $need (text): how soon a vet
# $humane (text): how far it is in question
# $authority (text): whether to call
differences-rungs = { $need }; humane end: { $humane }; { $authority }

# $scale (text): which scale
# $rule (text): the rule's key
differences-sought-leads = { $scale } by rule `{ $rule }`
# $rule (text): the rule's key
differences-sought-advises = humane end by rule `{ $rule }` of yours
# $action (text): the action's key
differences-sought-ban = the ban on `{ $action }`
# $action (text): the action's key
differences-sought-may-not-be = `{ $action }` where it may not be
# $action (text): the action's key
differences-sought-has-to-be = `{ $action }` where it has to be
# $sign (text): the sign's key
differences-sought-sign = the sign `{ $sign }`
# $every (text): minutes
# $until (text): an hour
differences-sought-looks = looks every { $every } min until hour { $until }
differences-sought-night = looks by night
# $question (text): the question's key
differences-sought-asked = whether `{ $question }` is asked
# $question (text): the question's key
differences-sought-calls-up = what `{ $question }` calls up
