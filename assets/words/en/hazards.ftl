### What could go wrong: with this bird, and the whole list with what keeps each away.

hazards-heading-hers = WHAT COULD GO WRONG WITH HER
hazards-heading-all = WHAT CAN GO WRONG, AND WHAT KEEPS IT AWAY

# $doing (text): the harm of doing, as a sentence
# $leaving (text): the harm of not doing, as a sentence
hazards-both = Done: { $doing } Not done: { $leaving }
# $whom (text): whom it harms, in a list
# $worst (text): the worst it can do
hazards-harms = Harms { $whom }: { $worst }.
hazards-bird = the bird
hazards-flock = the other birds
hazards-people = people
hazards-eaters = whoever eats eggs or meat
hazards-kills = can kill
hazards-maims = can maim
hazards-misleads = misleads
# $control (text): what keeps it away
# $file (text): where in the program
hazards-in-code = In the program itself: { $control } ({ $file })
# $names (text): tests by their names, in a list
hazards-tests = Tests: { $names }.
# $source (text): the work, and how well it is known
hazards-rests-on = Rests on: { $source }.

# $bird (text): a scripted bird by her name
# $how (text): whether one control alone keeps it away
# $controls (text): what keeps it away
hazards-shown = Shown on { $bird }; { $how }: { $controls }.
# $bird (text): a scripted bird by her name
# $how (text): whether one control alone keeps it away
# $controls (text): what keeps it away
hazards-shown-no-vet = Shown on { $bird }, with no vet in reach; { $how }: { $controls }.
hazards-any = any of these alone keeps it away
hazards-each = each of these is needed
hazards-alone = this keeps it away

# $id (text): an act's name in the protocol
# $say (text): its line
hazards-act = `{ $id }` ({ $say })
# $rule (text): a rule's name
hazards-rule = rule `{ $rule }`
# $rule (text): a rule's name
# $act (text): an act
hazards-advises = rule `{ $rule }` advises { $act }
# $act (text): an act
hazards-ban = the ban on { $act }
# $act (text): an act
hazards-end = the end of the ban on { $act }
# $rule (text): a rule's name
hazards-exceptions = the exceptions of rule `{ $rule }`
# $rule (text): a rule's name
hazards-looks = the looks of rule `{ $rule }`
# $answer (text): an answer's name
# $question (text): a question's name
hazards-instruction = what fills the screen at `{ $answer }` to `{ $question }`
# $keep (text): an act
# $drop (text): an act
hazards-conflict = { $keep } drops { $drop }
# $ban (text): an act that is forbidden
# $drop (text): an act
hazards-rules-out = the ban on { $ban } drags along { $drop }
# $act (text): an act
hazards-opens = what { $act } waits for
# $act (text): an act
hazards-fits = the lines of { $act } by place and state
# $first (text): an act
# $then (text): an act
hazards-before = { $first } comes before { $then }
# $paragraph (text): a paragraph's name
hazards-paragraph = paragraph `{ $paragraph }`
# $substance (text): a substance's name
hazards-substance = `{ $substance }` is known on labels
