### What stands round a page that is read: why a line stands, the help, the marks, and that there is more.

# $line (text): the line that is asked about
page-why = WHY: { $line }
page-why-nothing = WHY: nothing has been found yet.
page-why-all = WHY, gravest first
# $what (text): what a reason leads to
page-leads-to = Leads to: { $what }.
# $place (text): where the keys work
page-keys = KEYS: { $place }
page-marks = MARKS
page-marks-calm = + care at home, ? the same so far and not settled
page-marks-need = ! vet within a day, !! within hours, !!! now
page-marks-no-vet = ! serious, !! grave, !!! gravest; no vet: phone any
page-marks-steps = [head] where we are, +head done, ?head left open
page-marks-rows = * your answer so far, > the line you stand on

# $keys (text): which keys show it
page-more-keys = more: { $keys }
page-more-below = more below
page-next-below = space: more below
page-more-lines = more lines below
# $key (text): the key
page-more-lines-key = { $key }: more lines below
page-practice = PRACTICE
# $width (number): columns there are
# $height (number): rows there are
# $columns (number): columns it takes
# $rows (number): rows it takes
page-too-small = Make this window larger: it is { $width } by { $height }, and { $columns } by { $rows } is needed. What you said is kept. x leaves.
