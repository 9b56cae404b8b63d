### What is ruled of a product's ingredients.

label-heading-product = THIS PRODUCT
label-heading-on-what = ON WHAT
label-heading-in-it = WHAT IS IN IT
label-heading-eggs = EGGS AND MEAT

label-the-whole = the whole of it
# $uses (text): on what it may be put
label-only-on = ONLY on { $uses }. NOT elsewhere.
label-elsewhere-already = Is some elsewhere on her already? Tell the vet. To ask for one place, write it behind: `on: nail`.
# $place (text): on what
label-not-on = NOT on { $place }.
# $uses (text): on what it may be put
label-leave-off-there = Leave it off there. It may go on: { $uses }, where her plan asks for it.
# $place (text): on what
label-may-be-used-on = MAY BE USED on { $place }.
# $place (text): on what
# $ruling (text): what is ruled there
# $why (text): why, or nothing
label-on-place = { $place }: { $ruling }. { $why }
# $place (text): on what
# $ruling (text): what is ruled there
label-on-place-alone = { $place }: { $ruling }.

# $printed (text): the strength printed
# $make (text): the strength wanted
# $published (text): what is published
# $sum (text): how the sum is asked for
label-stock = { $printed } is a stock: thin it to { $make } first; published is { $published }. The sum `solution` reckons it: { $sum }
# $printed (text): the strength printed
# $published (text): what is published
label-as-published = { $printed } is as strong as is published: { $published }. Use it as it is.
# $published (text): what is published
# $why (text): what a stronger one does
label-too-strong = STRONGER than the { $published } that is published: { $why }.
# $printed (text): the strength printed
# $why (text): what a weaker one is
# $published (text): what is published
label-too-weak = { $printed }: { $why }. Published is { $published }.
# $make (text): the strength wanted
# $published (text): what is published
label-no-strength = No strength is printed here. Read the bottle, then thin it to { $make }; published is { $published }.

# $printed (text): as it is printed
label-unknown = { $printed }: unknown
label-unknown-why = This program does not know it. A brand name hides what is in it: copy the small print, or ask a vet or a pharmacist.
# $printed (text): as it is printed
# $name (text): what it was read as
# $ruling (text): what is ruled of it
label-read-as = { $printed }: read as { $name }. { $ruling }.
# $printed (text): as it is printed
# $name (text): what it was read as
# $ruling (text): what is ruled of it
label-read-by-stem = { $printed }: read as { $name }, by the stem of its name. { $ruling }.
# $printed (text): as it is printed
# $name (text): what it was read as
# $ruling (text): what is ruled of it
label-read-by-likeness = { $printed }: read as { $name }, spelled nearly so. { $ruling }.
label-spoilt = By itself it is another matter; not out of this product

label-carrier = only carries the rest
label-may-be-used = may be used
label-as-vet-wrote = as the vet wrote
label-ask-first = only with a vet's word
label-is-unknown = unknown: ask a vet or pharmacist
label-not-here = not on this bird or place
label-not = not
label-never = never

label-verdict-never = NEVER on a bird.
label-verdict-not-here = NOT on this bird or place.
label-verdict-unknown = UNKNOWN: ask a vet or pharmacist.
label-verdict-ask-first = ASK a vet first.
label-verdict-as-vet-wrote = AS THE VET WROTE.
label-verdict-may-be-used = MAY BE USED, in its place.
label-phone-the-vet = PHONE THE VET before you use it.
label-harms-whoever-gave = Something in it harms birds, whoever gave it: see below. Read it out to the vet.
label-cannot-be-right = What is printed cannot be right. Read it out to the vet.
label-judges-no-dose = Ask about eggs and meat. This program judges no dose.

# $vet (text): who gave it
# $day (text): when
# $bird (text): for which bird
label-given-by = Given by { $vet } on { $day } for { $bird }.
label-another-bird = For another bird or another trouble it is a leftover: ask again.
# $missing (text): what is not told
label-leftover = A LEFTOVER: not told is { $missing }.
label-missing-vet = which vet gave it
label-missing-day = the day it was given
label-missing-bird = for which bird
label-from-the-house = From the house it is a leftover. Did a vet give it for this bird?
# $example (text): how it is written
label-write-who = Then write who, when and which bird behind it: { $example }

label-next-put-away = Put it away. Is some on her already? Tell the vet which, and when.
label-next-ask-first = Leave it off until then: clean and dry is enough.
label-next-as-vet-wrote = Ask about eggs and meat.
label-next-unknown = Until then leave it off: clean and dry is enough.
label-next-as-her-plan = As her plan says, no stronger and no more.
label-next-only-where = Only where the plan for a bird asks for it, as told below.

label-because-no-such-strength = That strength cannot be: read the label again.
label-because-barred = The law bars it in birds that give food: ask the vet about that before the first dose.
label-because-not-her-wound = Her wound is none it may go on.
label-because-not-planned = Her plan does not ask for it now.
# $wound (text): a wound's number
label-because-one-wound = Only for wound { $wound }.
# $before (text): a wound's number, or several
# $last (text): one more
label-because-and = { $before } and { $last }
