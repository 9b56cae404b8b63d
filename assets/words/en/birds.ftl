### The birds that are kept: the list of all, one bird's case, and what is written into it.

birds-particulars = What a vet will ask
birds-particulars-look = What you write stands on the handover sheet; the last one only if you ask.
birds-contacts = Whom do you call?
birds-contacts-look = Written down once, for every bird. It stays on this machine, and off the sheet.
birds-all = The birds
# $count (number): how many there are
birds-count = { $count ->
    [one] { $count } bird.
   *[other] { $count } birds.
}
# $shown (number): how many stand in the list
birds-first = The first { $shown } are shown.
birds-being-listed = The birds are being read from disk.
birds-order = Those due a look come first; each keeps her number.
birds-outcomes = How did it end?
birds-outcomes-look = A humane end is told in the plan, and needs a vet.
birds-death = Is she dead? Look twice, some minutes apart.
birds-death-look = Dead: no breath, no blink when the edge of the eye is touched, limp. Stiff is sure. Warm and dry a cold or soaked bird first. Our own rule, no source.
birds-parted = Another window went on with this bird. With which do you go on?
birds-parted-look = Both are kept, each as a bird of its own. Nothing is lost.
# $at (text): when
birds-closed-at = Closed { $at }. 8 opens her case again.
# $outcome (text): how it ended
# $at (text): when
birds-ended-at = { $outcome } { $at }. 8 opens her case again.
birds-no-look-called = Put away: no look is called. 8 opens her case again.
birds-talk = Talk to a vet or a trained, lawful person.
birds-no-look-due = No look is due.

# $bird (text): the bird
birds-sure-ended = { $bird }: her life was ended?
# $bird (text): the bird
birds-sure-died = { $bird }: she died?
# $bird (text): the bird
birds-sure-away = { $bird }: put her case away?
# $word (text): her name, or a word that is shown
birds-sure-closes = Type { $word } and press enter: it closes her case. No look is called after it. Esc goes back.
# $word (text): her name, or a word that is shown
birds-sure-puts-away = Type { $word } and press enter: it puts it out of sight. No look is called after it. Esc goes back.
# The word that is typed for a bird without a name, before her case is closed or put away.
birds-word-ended = ended
birds-word-died = died
birds-word-away = away
birds-contact-look = Name and number, as you dial it. Nothing typed takes it out.
birds-name = What is she called?
birds-name-look = A name, a ring or a leg band.
birds-vet-said = What did the vet say?
birds-vet-said-look = Drug, amount, how often; when eggs and meat are free again. Nothing typed takes the last word back.
birds-type-name = Type her name.
birds-proved = What proved right or wrong?
birds-proved-look = For the next bird. Enter alone leaves it out.
birds-letters = Which birds?
birds-letters-look = Letters of the name, the kind, or how soon. Enter alone shows all.
# $at (text): since when
birds-unexamined-since = not examined to the end, since { $at }
# $at (text): since when
birds-due-since = look due since { $at }
# $at (text): a moment
birds-last-looked = last looked at { $at }
birds-vet = your vet
birds-emergency-vet = emergency vet
birds-authority = animal-health authority
birds-whom-to-call = WHOM TO CALL
birds-nobody-written = Nobody is written down yet. y: write it once, for every bird.

birds-give-name = give her a name
# $name (text): her name
birds-her-name = her name: { $name }
birds-ended = how it ended
# $outcome (text): how
birds-ended-so = how it ended: { $outcome }
birds-no-new-look = begin a new look: not now, her case is closed
birds-new-look = begin a new look instead
birds-nothing-open = begin a new look: 1 does, nothing was left open
birds-not-seen-to = see to her: not now, her case is closed
birds-her-days = her days: looks, weights, wounds
birds-write-vet-said = write down what a vet said
birds-hand-over = hand her over: the sheet
birds-vet-asks = what a vet will ask
birds-open-again = open the case again
birds-put-away = put her case away
birds-go-on-looking = go on with the look
birds-go-on-examining = go on with the examination
birds-look-is-due = look at her now: it is due
birds-look-again = look at her again now
birds-not-written = not written down
birds-find = find by letters
# $letters (text): what is looked for
birds-find-by = find by letters: { $letters }
birds-closed-too = closed ones too
birds-closed-shown = closed ones too: shown
birds-new-bird = a new bird
# $at (text): when her case was begun
birds-not-told = not told, { $at }
# $at (text): when
birds-look = look { $at }
# $at (text): since when
birds-look-now = LOOK NOW, due { $at }
# $at (text): since when
# $last (text): when somebody looked last
birds-look-now-last = LOOK NOW, due { $at }, last looked at { $last }
# $bird (text): the bird
# $outcome (text): how it ended
# $need (text): the need when it did
birds-closed-then = { $bird }: { $outcome }; then: { $need }
birds-is-away = put away
birds-stiff = stiff all over: she is dead
birds-seen-twice = no breath, no blink, limp: seen at two looks
birds-seen-once = the same, but seen once only
birds-cold = she is cold or soaked, and not stiff
birds-doubt = one of these is not so, or I cannot tell
birds-with-ours = with what was said here, as a bird of its own
birds-with-theirs = with what the other window kept

# $number (text): the figures typed
birds-number-opens = Number { $number }. Enter opens her case.
# $number (text): the figures typed so far
birds-number-goes-on = Number { $number }...: type the rest of it.
# $number (text): the figures typed
birds-number-none = No bird here bears the number { $number }.
# $word (text): what was to be typed
birds-not-the-word = That is not `{ $word }`. Nothing was changed. Type it, or esc goes back.
birds-dead-once = Nothing was closed. Leave her warm and quiet; look again in 5 minutes.
birds-dead-cold = Nothing was closed. Dry and warm her first; then look again. Cold birds can look dead.
birds-dead-doubt = Nothing was closed. Count her as alive: e opens the danger signs.
birds-keeper-told = Your own name and numbers stand on this sheet now.
birds-keeper-not-told = Nobody's name stands on this sheet.
birds-no-key-now = That line takes no key now: it says why.
# $bird (text): the bird
birds-title-look = LOOK NOW: { $bird }
birds-is-closed = Her case is closed. f, then 8, opens it again.
# $how (text): how it was closed
birds-was-closed = Her case was closed ({ $how }). It is open again.
