### What is asked: what stands over the lines to choose from, and between them.

question-steps = The steps
question-steps-look = Choose one to see and change its answers.
# $name (text): the step
question-step = Step: { $name }
question-step-look = Choose an answer to change it.
question-law = Whose law holds?
question-law-look = Not set? Then the strictest rule of all these holds.
# $what (text): what is asked about
question-of = { $what }?
question-house = What is in the house?
question-house-look = A number puts it in, or takes it out.
question-strength-and-date = How strong, and until when? For example `10 % until 2027-03`.
question-strength = How strong? For example `10 %`.
question-date = Until when does it count? For example `2027-03`. Enter alone if it bears no date.
question-label = What is in the product?
question-label-look = As printed, parted by commas. A word nobody knows means: ask a vet or pharmacist.
question-wound = Is there a wound anywhere?
question-another-wound = Is there another wound?
question-wound-look = Part the feathers from neck to tail, under sound wings, the thighs. Bites hide there.
question-wound-spared = Only what shows by itself. Touch nothing.

# $at (text): a moment
# $answer (text): what was answered then
question-last-time = Last time, { $at }: { $answer }
# $count (number): how many birds more are due a look
question-more-birds = { $count ->
    [one] and { $count } more bird waits
   *[other] and { $count } more birds wait
}
question-resume = go on with the bird you left
# $at (text): when she was left
question-resume-since = go on with the bird you left { $at }
# $what (text): what was answered
# $key (text): the key that takes it back
question-said = Said: { $what }. { $key } takes it back.
question-the-rest = all the others as always
question-cannot-look = cannot look now: leave it open
question-by-her-kind = cannot tell: go by her kind
# $page (number): the page that shows
# $pages (number): how many there are
question-more = more, { $page } of { $pages }
# $more (text): which page shows
# $line (number): which line one stands on
# $lines (number): how many there are
question-more-at = { $more }; line { $line } of { $lines }
question-typing = TYPING
# $answer (text): what was typed, as it is understood
question-read-as = read as { $answer }; enter takes it
# $example (text): something that would be taken
question-for-example = for example { $example }
question-skip-vet-only = n skips it: only told to the vet
question-skip-care = n skips it: how soon stays the same
question-skip-nothing = n skips it: it can change nothing any more

question-sum = Which sum?
