### The packet for an avian vet: twenty birds and every rule that can kill, and what forms say of them.

review-title = Coopside: a packet for an avian vet
# $version (text): the protocol's version
# $fingerprint (text): the beginning of its fingerprint
review-made = Protocol { $version } ({ $fingerprint })
# $count (number): how many birds
review-heading-birds = { $count } BIRDS, THE GRAVEST FIRST
review-heading-end = RULES THAT SPEAK OF A HUMANE END
review-heading-minutes = THE DEADLIEST RULES
review-heading-hours = RULES DEADLY WITHIN HOURS
review-why-end = Here because each brings a humane end into question, or advises it. Of each part the firmest stands first.
review-why-minutes = Here because each says "vet at once", or advises or forbids what kills or maims within minutes.
review-why-hours = Here because each advises or forbids what kills or maims within hours, or calls the animal-health authority at once.
review-in-the-hand = in the hand
review-hands-off = hands off

# The choice beside every item.
review-agree = agree
review-change = change
review-reject = reject

# What forms say.
review-heading-forms = WHAT FORMS SAY OF RULES
review-no-review = A form is what somebody sent back. It is no review, and it alters no verdict and no caution.
review-nothing-marked = nothing marked
# $role (text): what signed it
# $date (text): the day of signing
# $version (text): the protocol's version
review-signed = { $role }, { $date }, protocol { $version }
# $verdict (text): what was marked
# $signed (text): who, when and for what
review-form-says = A form says: { $verdict } ({ $signed })
# $verdict (text): what was marked
# $signed (text): who, when and for what
# $remark (text): what was written beside it
review-form-says-more = A form says: { $verdict } ({ $signed }): { $remark }
# $signed (text): who, when and for what
# $missing (text): what should stand in the packet
review-form-misses = A form says is missing ({ $signed }): { $missing }

# A bird's leaf.
review-heading-tells = IT TELLS HER KEEPER
review-heading-now = DO NOW, IN THIS ORDER
review-heading-then = THEN
review-heading-never = NEVER
review-heading-phone = ON THE PHONE
review-heading-because = BECAUSE
review-kind-not-told = bird, kind not told
# $one (text): what she shows
# $other (text): what else
review-beside = { $one } · { $other }
review-no-vet = no vet in reach
review-found = Found
review-cannot-be-told = cannot be told
review-rest-sound = All else that was asked: as in a sound bird. Looked over to the end.
review-rest-sound-not-over = All else that was asked: as in a sound bird. Not looked over to the end.
review-rest-not-asked-over = Nothing else was asked yet. Looked over to the end.
review-rest-not-asked = Nothing else was asked yet.
# $marks (text): the marks of rules, in a list
review-also = Also in force: { $marks }.
# $what (text): what she shows that no other does, in a list
review-chosen-for = Chosen for: { $what }.
review-chosen-for-acts = acts and bans that no other shows
review-vet-now = a vet in reach at once
review-vet-hours = a vet within hours
review-vet-day = a vet within a day
review-reach-not-told = reach of a vet not told
review-a-wound = a wound
review-no-wound = no wound
review-rungs-together = these rungs together
review-hen = hen
review-cock = cock
review-bantam = bantam
review-chick = chick
review-duck = duck
review-goose = goose
review-turkey = turkey
review-quail = quail
review-guinea-fowl = guinea fowl
review-unknown-kind = kind not told

# A rule's leaf.
review-within-minutes = advice only; counts within minutes
review-within-hours = advice only; counts within hours
# $condition (text): when the rule holds
review-when = When: { $condition }.
# $condition (text): when the rule holds
review-when-wound = When a wound is so: { $condition }.
# $conditions (text): when it does not hold
review-unless = Not where: { $conditions }.
# $one (text): a condition
# $other (text): another
review-or = { $one }; or { $other }
# $hours (number): hours
# $what (text): what must be done
review-by = By { $hours } h after the injury: { $what }.
# $what (text): what is done
review-to-do = Do: { $what }
# $what (text): what is never done
review-never = Never: { $what }
# $why (text): why it is never done
# $instead (text): what is done in its place
review-instead = { $why } Instead: { $instead }
# $line (text): what kills within minutes, left out or done
review-kills-minutes = { $line } [minutes]
# $line (text): what kills within hours, left out or done
review-kills-hours = { $line } [hours]
review-advice-own = Advice: the source's own.
# $source (text): which source advises it
review-advice = Advice: { $source }.
review-advice-ours = Advice: our inference.
# $kind (text): whose figures they are
review-borrowed = Borrowed from { $kind }.

# The first leaf.
review-first = READ THIS FIRST
review-for-a-vet = For an avian vet with an evening to spare
review-not-signed = not signed by anybody yet
review-role = Role (no name)
review-date = Date
review-signature = Signature, if you wish

review-heading-what = WHAT THIS IS
review-what-program = Coopside is a program for keepers. It leads them through a check of a hurt hen, duck, goose, turkey, quail or guinea fowl, judges how bad it is and says what to do.
review-what-asked = No vet has reviewed any of it, and nobody has signed this packet. You are asked to judge it.
# $birds (number): how many birds
# $rules (number): how many rules
review-what-holds = It holds { $birds } invented or published birds, chosen so that between them they show every rung of the three scales, and all { $rules } rules of which a bird can die if they are wrong.
# $rules (number): how many rules
review-what-left-out = Left out are { $rules } rules that by that measure kill nobody within hours.
# $minutes (number): how long reading takes
# $words (number): how many words are read in a minute
# $deciding (number): how many minutes deciding takes
review-what-time = To read: about { $minutes } minutes at { $words } words a minute. To decide: about { $deciding } minutes more.

review-heading-scales = THE THREE SCALES
review-scale-need = How soon, mildest first: none, care at home, vet within a day, vet within hours, vet at once.
review-scale-no-vet = No vet in reach: the keeper says that no vet can see her within a day. Then the last three rungs are told as serious, grave and gravest.
review-scale-humane = Humane end: not in question, may come into question, advised unless a vet can act in time, advised.
review-scale-authority = Animal-health authority: no call, ask, call now.

review-heading-how = HOW TO FILL IT IN
review-how-order = The gravest stands first: birds, then rules that speak of an end, then the deadliest. Stop whenever you like: what you marked counts, and a blank says nothing.
review-how-marks = Agree: let it stand as it is. Change: right in the main, and you say what is wrong. Reject: nobody should be told this.
review-how-judge = Judge what a lay person is told, alone with the bird: the order, the words, what is left out.
review-how-names = B1 is a bird, R1 a rule. (B2) behind a line: it stands in full there. Capitals join the parts of a condition: AND, OR, NOT.
review-how-soon = [minutes] or [hours]: so soon it kills or maims, left out or, where it is forbidden, done.
review-how-known = A finding was read in the source, read second-hand, is from memory, or common practice. Its advice is the source's own, or our inference. "Borrowed" names the birds or beasts a figure comes from.
review-how-doubt = A keeper who cannot tell is held to the worst for need and for bans. That alone advises no treatment and no humane end.
review-how-disagree = Where rules disagree a ban wins over an act, and the gravest rung over all others.

review-heading-back = HOW TO SEND IT BACK
review-back-pen = By pen: fill in role and date, sign if you wish, and give all marked pages back to whoever gave you this.
review-back-opinion = It asks for no opinion on any one bird in your care, and whatever you mark, no keeper is told that a vet stands behind it.
review-back-screen = On a screen: mark the boxes of the HTML, and print it. Whoever has the program copies your marks into the form that `coopside review --form ron` writes, and `coopside review --read FILE` takes it in.

review-heading-does = WHAT A FORM DOES, AND DOES NOT
# $version (text): the protocol's version
review-does-tell = A form is told beside its items as "a form says", with role, date and protocol { $version }.
review-does-hold = It holds for that version only, and is lost when its item changes.
review-does-alter = It alters no verdict and no caution: the program goes on saying that no vet has reviewed it.
review-does-keep = The program keeps a role and no name, on the machine where the form is read. Nothing is sent anywhere.
review-heading-missing = FORMS SAY IS MISSING

# The last leaf.
review-last = LAST
review-missing = What is missing?
review-missing-what = A sign that kills and is not asked for, an act that saves and is not told, a kind of bird it is wrong for: write it here.
# $number (number): the line's number
review-missing-line = Missing { $number }

# What explains the form to whoever copies the marks into it.
review-form-copied = What a vet marked in the packet, to be copied from the paper. Read it back with: coopside review --read FILE
review-form-alters = It alters no verdict and no caution. A role is enough; leave names out.
review-form-role = for example "avian vet"
review-form-date = the day of signing, for example "2026-05-01"
review-form-missing = what should stand in the packet and does not
review-form-marks = In place of None write Agree, Change or Reject; None stays where nothing was marked.
