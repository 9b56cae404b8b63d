### The handover sheet, in the order the trade hands over: age and time, mechanism, injuries, signs, treatment; then situation,
### background, assessment, recommendation.

# $bird (text): who she is
sheet-title = Handover: { $bird }
# The same in capitals, as headings are.
# $bird (text): who she is
sheet-heading = HANDOVER: { $bird }
sheet-caution = Caution.
sheet-cut-here = (cut here; the JSON holds all of it)
# $at (text): the date and time
# $version (text): the protocol's version
# $fingerprint (text): the beginning of its fingerprint
sheet-made = { $at }, Coopside, protocol { $version } ({ $fingerprint })

sheet-heading-ended = HOW IT ENDED
sheet-heading-age-and-time = AGE AND TIME
sheet-heading-mechanism = MECHANISM
sheet-heading-injuries = INJURIES
sheet-heading-signs = SIGNS
sheet-heading-course = OVER THE DAYS
sheet-heading-treatment = TREATMENT
sheet-heading-situation = SITUATION
sheet-heading-background = BACKGROUND
sheet-heading-assessment = ASSESSMENT
sheet-heading-recommendation = RECOMMENDATION
sheet-heading-not-known = NOT KNOWN

sheet-kind-not-told = bird, kind not told
# $bird (text): who she is
sheet-practice = PRACTICE, no real bird: { $bird }
# $bird (text): who she is
# $number (text): the shelter's number
sheet-numbered = { $bird }, number { $number }
sheet-unknown = Not known.

# How her case ended.
sheet-proved = What it proved
sheet-other-birds = The other birds
sheet-as-it-stood = What follows is as it stood then.
# $bird (text): who she is
# $ended (text): how it ended, and when
sheet-told-ended = This is { $bird }. { $ended }. Nothing more is due of her.

# $told (text): what her wounds tell
sheet-by-wounds = by her wounds: { $told }
# $what (text): what was told
# $at (text): when
sheet-told-at = { $what } (told { $at })
sheet-no-wound = No wound; looked over from neck to tail.
sheet-no-wound-yet = No wound told of yet: she was not looked over to the end.
sheet-drawn = Drawn
# $seen (text): from where she is seen
sheet-legend = { $seen }. (1) is a wound; ! means that no liquid goes in there
# $one (text): a view of her
# $other (text): another
sheet-views = { $one }, and { $other }
# $seen (text): from where she is seen
# $wounds (text): what is where
sheet-drawing = The bird { $seen }. { $wounds }

sheet-signs-caption = Signs that are not as they should be
sheet-sign = Sign
sheet-at-first = At first
sheet-as-of-now = Now
sheet-seen = Seen
sheet-not-asked = not asked
sheet-nothing-found = Nothing found of what was asked.
# $count (number): how many signs
sheet-more-signs = And { $count } more: in the JSON of the verdict.

sheet-need = Need
# Of a case that is over: what was, for nothing of it calls a vet any more.
sheet-need-before = Need, before it ended
sheet-weight = Weight
sheet-hurt = Hurt
# $before (text): what was, and when
# $next (text): what it became, and when
sheet-then = { $before }, then { $next }
# $changes (text): how soon a vet, where it changed
# $count (number): at how many looks it was judged
sheet-looks = { $changes }; { $count } looks
# $count (number): how many values
sheet-values-left-out = ({ $count } more)
# $wound (text): the wound by its number
sheet-wound-area = { $wound }, area
# $name (text): what was measured
# $first (text): the first value, with its unit
# $from (text): when
# $last (text): the last value, with its unit
# $to (text): when
sheet-plot = { $name }: { $first } at { $from }, { $last } at { $to }.
# The same with a line below which a loss means something.
# $name (text): what was measured
# $first (text): the first value, with its unit
# $from (text): when
# $last (text): the last value, with its unit
# $to (text): when
# $floor (text): the value of the line, with its unit
sheet-plot-floor = { $name }: { $first } at { $from }, { $last } at { $to }; below { $floor } a loss is more than noise.

sheet-told-to = Told to
# $what (text): what was to be done
# $clock (text): how long
sheet-shown-for = { $what }; shown for { $clock }
sheet-timed = Timed
sheet-done = Done
sheet-phoned = Phoned.
# $minutes (number): minutes
# $seconds (number): seconds beside them
sheet-clock = { $minutes } min { $seconds } s
# $clock (text): how long it was set to
sheet-not-ended = A clock of { $clock }, not ended.
# $ran (text): how long it ran
# $clock (text): how long it was set to
sheet-ran = For { $ran } of { $clock }.
sheet-vet-said = A vet said
sheet-left-to-vet = Left to the vet
sheet-nothing-done = Nothing written down of what was done or given.

sheet-humane = Humane end
sheet-authority = Animal-health authority
sheet-catching = It may be catching: say so before she comes through the door.
sheet-judged-by = A keeper's guide judged this, no vet. It tells no odds.
sheet-closed = Nothing more: her case is closed.
sheet-until-then = Until then
sheet-never = Never

sheet-could-not-be-told = Could not be told
sheet-not-asked-of-her = Not asked
sheet-not-written-down = Not written down
# $shown (text): a list
# $count (number): how many more there are
sheet-and-more = { $shown }, and { $count } more
sheet-not-understood = Not understood by this protocol, and counted as cannot tell
sheet-not-weighed = Told, but not weighed
sheet-all-known = Everything that was asked is known.
