### Practice birds that were drawn, and why none could be.

# $told (text): what a keeper tells, part by part
drawn-opens = Told on the phone: { $told }.
drawn-trains = what chance brings
# $seed (text): the number
drawn-source = drawn with the number { $seed }
drawn-nothing-wrong = Nothing is wrong with her.
# $number (text): the wound's number, from 1
# $topic (text): what was asked of it
# $answer (text): what is so
drawn-of-wound = wound { $number }, { $topic }: { $answer }

# $wanted (text): the rung that was wanted
# $scale (text): on which scale
# $least (text): the mildest rung there is
# $most (text): the gravest
drawn-nobody = no bird that has been looked over gets `{ $wanted }` as { $scale }: the least is `{ $least }`, the most `{ $most }`
drawn-scale-need = need
drawn-scale-humane = humane end
drawn-scale-authority = authority
drawn-not-found = no bird was found that comes to all of that at once; ask for less, or take another seed
