### What is said about the last key, under what shows.

# $country (text): the name that was kept
notice-country-unknown = The country `{ $country }` that was set is not known any more; set it again: l.
notice-steps-in-order = These are steps to take, in order. Enter goes on.
notice-no-always = Nothing here is "as always": press the number of a line.
notice-taken-already = That is taken already. b takes back what was said last.
# $sign (text): what somebody said shows on her
notice-told-before = You said: { $sign }. Not there? Same key again.
notice-too-soon = That key came before this screen was there: not taken.
notice-not-shown = A key was pressed while nothing showed what it answers: not taken.
notice-number-first = Press the number of a line, or move to it first.
notice-set-her-down = You can set her down now.
notice-take-in-fist = Take her in a loose fist now, head out, breast free. The time is counted.
notice-take-in-hand = Take her in the hand now, breast free, a hurt wing as it lies. The time is counted.
# $line (number): the number pressed
notice-no-line = There is no line { $line }.
notice-time-not-up = Its time was not up: keep on until it is, and go on here.
notice-no-answer-yet = There is no answer yet to tell the why of.
notice-most-wounds = That is as many wounds as one bird is told to have.
notice-beginning = This is the beginning.
notice-look-beginning = This is the beginning of this look.
notice-practice-beginning = This is the beginning of practice; x leaves.
notice-no-bird = No bird is being looked at. For a real one: leave with x, then start coopside.
notice-leaves-typing = You are typing. The same key again leaves; what is typed is not kept.
# $left (text): the time left
notice-leaves-clock = A clock runs: { $left } to go. It stops with the program: the same key again leaves.
notice-nothing-asked = Nothing more is asked here.
notice-signs-first = First these five signs.
notice-nothing-settles = No question that may be asked here can change this.
notice-this-settles = This is it: nothing else settles more.

# $most (number): how many letters
notice-line-full = The line is full: it takes { $most } letters.
notice-too-long = That is longer than the line takes; the rest was left out.
notice-clock-jumped = The clock jumped, or the machine slept. This count is thrown away: begin it again.
# $low (text): the least
# $high (text): the most
notice-weight-odd = Her kind weighs { $low } to { $high }. If it is right all the same, press enter again.
# $supply (text): what was put in
notice-put-in = Put in: { $supply }. Does it bear a date? d types it.
# $supply (text): what it is about
notice-no-date = No date is needed for { $supply }.
notice-put-in-first = First put it in: the number of its line.
notice-copy-label = Copy the ingredients from the label, parted by commas.
# $key (text): the key
notice-no-such-key = Nothing here goes by { $key }.
# $key (text): the key that shows help
notice-keys-are-told = { $key } tells every key.
notice-graver-stands = The worse of the two stands.
# $key (text): the key that takes it back
notice-takes-back = { $key } takes it back.
