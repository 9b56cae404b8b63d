### What came of holding a protocol against the shipped one.

compared-milder = Milder than the protocol that comes with the program, or what it would not say; let a vet say whether that is right:
# $count (number): how many birds are shown
compared-ended-early = The search ended at { $count } birds. Mend what they show, and compare again.
compared-less = Less than in the protocol that comes with the program, as data:
# $names (text): what is not decided, in a list
compared-not-decided = NOT DECIDED; nothing is claimed of: { $names }
compared-otherwise = Other words, or only in yours; look whether they mean the same:
# $count (number): how many cases
compared-nothing-milder = No bird of whom it says less than the protocol that comes with the program: { $count } cases, every bird at once, by a solver of clauses
# $count (number): how many cases
compared-the-same = No bird of whom it says less than the protocol that comes with the program: the same protocol; { $count } cases, every bird at once, by a solver of clauses
# $rules (text): rules by their names, in a list
compared-rules = of the shipped one these rules alone speak: { $rules }
# $signs (text): what is found on her
compared-bird = a bird that shows it, all else fine: { $signs }
# $hours (number): whole hours
# $minutes (number): minutes beyond them
compared-judged-after = judged { $hours } h { $minutes } min after she was looked at
# $count (number): how many
compared-and-more = and { $count } more: see --json
