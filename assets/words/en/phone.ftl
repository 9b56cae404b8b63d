### What is said aloud of a bird, in half a minute: to a vet on the phone, and to the next shift.

phone-heading = ON THE PHONE, READ THIS OUT
phone-heading-shift = TO THE NEXT SHIFT, READ THIS OUT

# Said first, for a practice must know before she comes through the door.
phone-catching = It may be catching.
# The same where it rests on nothing but what could not be told.
phone-catching-not-ruled-out = Catching? Not ruled out.
# The bird, where her kind begins with a vowel.
# $kind (text): what bird she is
phone-an-kind = I have an { $kind }.
# The bird, where it does not.
# $kind (text): what bird she is
phone-a-kind = I have a { $kind }.
phone-bird = I have a bird.
# $need (text): how soon a vet, or how grave
phone-guide-says = My guide, no vet, says: { $need }.
# How a call ends with a vet in reach, and with none.
phone-asks = When can you see her? What until then?
phone-asks-anyone = Who could see her? What until then?
# Asked where a humane end has come into question: with no vet in reach, and of the vet who will see her.
phone-asks-end = Would a humane end be kinder?
phone-asks-mended = Can this be mended?
# $weight (text): her weight
phone-weighed = Weighed { $weight }.
phone-more = There is more: ask.

# $reason (text): what the rule says
phone-not-ruled-out = Not ruled out. { $reason }
# $untold (text): what could not be told, ended as a sentence
phone-untold = Could not be told: { $untold }
phone-not-known = not known
phone-nothing-known = nothing known of it
# $what (text): what it is, and what is not as it should be of it
phone-wound = Wound: { $what }.
# $count (number): how many
# $what (text): what they are
phone-wounds-alike = { $count } wounds alike: { $what }.
# $count (number): how many
phone-and-more-wounds = { $count ->
    [one] And { $count } more wound.
   *[other] And { $count } more wounds.
}
# $count (number): how many
phone-besides-wounds = { $count ->
    [one] Besides, { $count } wound.
   *[other] Besides, { $count } wounds.
}

# $bird (text): her name and kind, and her number where she has one
phone-this-is = This is { $bird }.
# $need (text): how soon a vet
phone-she-needs = She needs: { $need }.
# $need (text): how grave it is
phone-her-need = Her need: { $need }.
phone-gloves = It may be catching: gloves, apart.
# $what (text): what is never done
phone-never = Never: { $what }
# $said (text): what the vet said
phone-vet-said = A vet said: { $said }.
phone-vet-on-sheet = A vet's word is on her sheet: read it first.
# $look (text): when
phone-next-look = Next look: { $look }.
phone-worse = Worse in any way? Do not wait for it.
phone-not-looked-over = Not looked all over yet.
