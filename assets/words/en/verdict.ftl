### The verdict: the three scales, why, what is open, what would change it.

# $need (text): how soon a vet, or how grave, with what could still come
verdict-need = Need: { $need }
# $rung (text): how far it is in question
verdict-humane = Humane end: { $rung }
# $rung (text): whether to ask or to call
verdict-authority = Animal-health authority: { $rung }
# $low (text): what stands
# $high (text): the worst that could still come
verdict-so-far = { $low } so far; open questions could mean: { $high }
# $low (text): what stands
# $high (text): the worst that could still come
verdict-at-least = { $low } at least; open questions could mean: { $high }
# $low (text): what stands
verdict-not-finished = { $low } so far; the look is not finished
# $untold (text): what could not be told, ended as a sentence
verdict-look-again = Nobody could tell, so it counts: { $untold } Can it be seen now? Look, and answer it.
# $topics (text): what is asked, ended as a sentence
verdict-turns-on = It turns on: { $topics }
# $systems (text): parts of the body, ended as a sentence
verdict-unknown-systems = nothing found so far, not all looked at: { $systems }
verdict-score-open = not complete
# $points (number): the points given
# $most (number): the most there are
verdict-score = { $points } of { $most }
verdict-points-unknown = not known
# $example (text): what would count as the same
verdict-as-grave = As grave as, for example: { $example }.
verdict-ask-next = Ask next: whether a humane end is in question turns on it.
verdict-look-over = The look-over for wounds is not finished.
# $count (number): how many questions
verdict-could-change = { $count ->
    [one] { $count } question could still change this:
   *[other] { $count } questions could still change this:
}
verdict-settled = Settled: no answer still open changes need, humane end or authority.
verdict-settled-untold = As far as could be told, settled: only what could not be told may change it.
# $need (text): the least it can come to
verdict-no-less = Nothing you can still find makes this less than: { $need }.
# $at (text): a moment
verdict-clock-acts = At { $at } the clock alone changes what to do. Open this again then.
# $at (text): a moment
# $changes (text): what changes
verdict-clock-changes = At { $at } the clock alone changes this: { $changes }.
# $rung (text): how soon, then
verdict-need-then = need then { $rung }
# $rung (text): how far it is in question, then
verdict-humane-then = humane end then { $rung }
# $rung (text): whether to ask or to call, then
verdict-authority-then = authority then { $rung }
verdict-scale-need = need
verdict-scale-humane = humane end
verdict-scale-authority = authority
# $scale (text): which scale
# $rung (text): where it stands
verdict-scale-at = { $scale }, { $rung }
# $scale (text): which scale
# $rung (text): the worst that is left
verdict-no-further = { $scale }, no further than { $rung }:
# $count (number): how many
verdict-and-more = and { $count } more
# $answers (text): other answers
verdict-if-instead = If instead { $answers }:
# $before (text): answers
# $last (text): one more
verdict-and = { $before }, and { $last }
verdict-not-asked = not asked
# $topics (text): what is asked, ended as a sentence
verdict-asked-only = Asked only where other answers call for it, and they do not: { $topics }
verdict-asked-only-do = Is it so? Look at those again. Tell the vet of it.
verdict-nothing-made = It changes nothing here. Tell the vet of it.
verdict-misweighed = Her kind and her weight or build do not fit: either may be wrong, so the graver counts. Look at both again.
