### The rungs of the scales, the grades, and how well something is known: words used in many sentences.

terms-need-none = nothing found
terms-need-home = care at home
terms-need-day = vet within a day
terms-need-hours = vet within hours
terms-need-now = vet at once
# The same three where no vet can be reached: how grave it is, since no vet's clock is told of her.
terms-need-serious = serious
terms-need-grave = grave
terms-need-gravest = gravest
terms-no-vet = no vet: phone any for advice

terms-humane-not = not in question
terms-humane-may = may come into question
terms-humane-unless = advised unless a vet can act in time
terms-humane-advised = advised
terms-humane-advice-unless = a humane end is advised unless a vet can act in time
terms-humane-advice = a humane end is advised
terms-talk = Talk to a vet or a trained, lawful person.

terms-authority-none = no call
terms-authority-ask = ask the animal-health authority
terms-authority-call = call the animal-health authority now

terms-breath = breathing
terms-blood = blood
terms-nerves = mind and nerves
terms-head = head, eyes, beak
terms-limbs = wings and legs
terms-skin = skin and wounds
terms-belly = belly and vent

terms-severity-nothing = nothing found
terms-severity-slight = slight
terms-severity-serious = serious
terms-severity-grave = grave

terms-read = read in the source
terms-second-hand = read second-hand
terms-memory = from memory
terms-practice = common practice, no source
terms-proposal = our proposal, published nowhere
# $source (text): the work
# $strength (text): how well it is known
terms-cite = { $source } ({ $strength })

terms-cannot-tell = cannot tell
# $answer (text): an answer by its name
terms-answer-unknown = `{ $answer }`, which this protocol does not know
# $number (number): the wound's number, from 1
# $topic (text): what was asked of it
terms-of-wound = wound { $number }: { $topic }
# $number (number): the wound's number, from 1
terms-wound = Wound { $number }
# $number (number): the wound's number, from 1
# $place (text): where it is
terms-wound-at = Wound { $number }, { $place }
# $numbers (text): the wounds' numbers, in a list
# $count (number): how many there are
# $line (text): what is said of them
terms-whose = { $count ->
    [one] Wound { $numbers }: { $line }
   *[other] Wounds { $numbers }: { $line }
}
# $name (text): a name
# $what (text): what is told of it
terms-named = { $name }: { $what }
# $name (text): a name
# $what (text): what is told of it
terms-named-ended = { $name }: { $what }.
# $name (text): what stands above what follows
terms-follows = { $name }:
# $text (text): what is ended as a sentence
terms-ended = { $text }.
# $kind (text): the kind of bird a figure was measured in
terms-borrowed = ; borrowed from { $kind }
# $source (text): what it rests on
# $borrowed (text): whose figures they are, or nothing
terms-rests-on = Rests on: { $source }{ $borrowed }.
