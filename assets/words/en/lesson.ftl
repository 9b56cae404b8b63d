### Practice: the lessons, what is seen of a practice bird, and a verdict of one's own.

lesson-first = What do you look at first?
lesson-next = What do you look at next?
lesson-deeds = What do you do?
lesson-deeds-look = Choose all you would do now, in order. Some of these harm.
lesson-look-over = Is this look over?
lesson-look-over-look = What is left open counts as not answered.
lesson-need = Your verdict: how soon does she need a vet?
lesson-need-look = Your own, before the program shows its own.
lesson-humane = Has a humane end come into question?
lesson-humane-look = By what you saw, and by who can be reached.
lesson-authority = Does an animal-health authority have to hear of it?
lesson-authority-look = Think of the others, too.
lesson-which = Practice: which bird?
lesson-which-look = None of these can be hurt, and nothing here touches your own birds. The first lines set up; space shows more.

lesson-you-are-told = You are told
lesson-you-see = You see
lesson-you-find = You find
lesson-not-told = Nothing that can be told.
lesson-nothing-of-the-kind = Nothing of the kind.
lesson-something = Under the feathers there is something.
lesson-another = There is another one.
lesson-skin-whole = Skin whole from neck to tail, as far as you can part the feathers.
lesson-no-other = No other.
# $what (text): what a mentor tells the novice
lesson-tell = TELL: { $what }
# $before (text): an answer, or several
# $next (text): one more
lesson-or = { $before }, or { $next }
# $ask (text): what is asked
# $answers (text): what can be answered
lesson-say = SAY: { $ask } { $answers }?

lesson-who = who practises?
# $name (text): who
lesson-who-is = who practises: { $name }
lesson-aloud-on = a mentor reads aloud: on
lesson-aloud-off = a mentor reads aloud: off
lesson-drawn = a bird drawn by chance
lesson-pair = two of you, one real bird
lesson-group = how it goes: the whole group
# $bird (text): the bird's name
# $kind (text): her kind
# $level (text): how hard it is, and whether it is due
lesson-lesson = { $bird }, { $kind } ({ $level })
lesson-due-again = due again
lesson-done = done
lesson-nothing-more = nothing more: go on looking
lesson-now-the-mentor = done: now the mentor looks
lesson-compare = done: compare
lesson-enough = I have seen enough: my verdict

lesson-novice = Who practises?
lesson-novice-look = A name for the marks; they stay on this machine.
lesson-verdict-first = In practice your own verdict comes first: put this aside with enter, then v.
lesson-novice-first = The novice first. What she needs at once is shown all the same: do it.
lesson-mentor-now = Now the mentor, without looking at what was said.
lesson-real-bird = She is a real bird: do what she needs, then go on.
# $what (text): what was done
lesson-deed-done = Done: { $what }
lesson-nothing-new = Nothing new to see from here.
lesson-later = Five minutes later.
