### What all of it rests on: the sources, how well each is known, what is borrowed, what was left out.

basis-heading-rests-on = WHAT IT RESTS ON
basis-heading-idle = NOTHING HERE RESTS ON THESE
basis-heading-facts = FACTS, AND WHAT CARRIES THEM
basis-heading-left-out = LEFT OUT ON PURPOSE

# The sorts of sources, which stand in capitals over each.
basis-papers = papers with measurements
basis-manuals = veterinary manuals, textbooks, talks
basis-law = laws and authorities
basis-clinics = clinics' own pages
basis-lay = lay pages
basis-no-source = no source

# $id (text): the fact's key
# $fact (text): the fact
basis-fact = { $id } { $fact }
# $by (text): keys of what carries it, in a list
basis-carried-by = Carried by: { $by }.
# $because (text): why
basis-left-out-because = Left out: { $because }

# $count (number): how many rules
# $strengths (text): how many of them rest on what
basis-all-rules = { $count } rules. What their findings rest on: { $strengths }.
# $count (number): how many rules
basis-ours = In { $count } of them the advice is our inference, not reviewed by a vet; in the others the source itself gives it.
basis-endorsed-by-nobody = The sources are named. Nobody named there has endorsed or reviewed this.
basis-no-inference = None of our inferences alone advises a humane end. It can only say that one may come into question.
# $what (text): how it is known
# $count (number): how many rules
basis-so-many = { $what }: { $count }

# $what (text): what rests on the source, in a list
basis-carries = Carries { $what }.
# $how (text): how well it is known
basis-known = How we know it: { $how }.
# $kinds (text): whose figures they are
basis-borrowed = Borrowed from: { $kinds }.

# $count (number): how many
basis-hold-times = { $count ->
    [one] { $count } time in the hand
   *[other] { $count } times in the hand
}
# $count (number): how many
basis-nights = { $count ->
    [one] { $count } stretch of dark hours
   *[other] { $count } stretches of dark hours
}
# $count (number): how many
basis-rules = { $count ->
    [one] { $count } rule
   *[other] { $count } rules
}
# $count (number): how many
basis-questions = { $count ->
    [one] { $count } question
   *[other] { $count } questions
}
# $count (number): how many
basis-actions = { $count ->
    [one] { $count } action
   *[other] { $count } actions
}
# $count (number): how many
basis-watch-signs = { $count ->
    [one] { $count } watch sign
   *[other] { $count } watch signs
}
# $count (number): how many
basis-instructions = { $count ->
    [one] { $count } instruction
   *[other] { $count } instructions
}
# $count (number): how many
basis-paragraphs = { $count ->
    [one] { $count } paragraph
   *[other] { $count } paragraphs
}
# $count (number): how many
basis-supplies = { $count ->
    [one] { $count } supply
   *[other] { $count } supplies
}
# $count (number): how many
basis-substances = { $count ->
    [one] { $count } substance
   *[other] { $count } substances
}
# $count (number): how many
basis-ways = { $count ->
    [one] { $count } way
   *[other] { $count } ways
}
# $count (number): how many
basis-rounds = { $count ->
    [one] { $count } round
   *[other] { $count } rounds
}
# $count (number): how many
basis-scores = { $count ->
    [one] { $count } score
   *[other] { $count } scores
}
# $count (number): how many
basis-laws = { $count ->
    [one] { $count } law
   *[other] { $count } laws
}
# $count (number): how many
basis-sums = { $count ->
    [one] { $count } sum
   *[other] { $count } sums
}
