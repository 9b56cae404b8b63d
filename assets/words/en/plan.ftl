### The plan: by when, never, what waits, when to look again, and a humane end in question.

plan-heading-due = BY WHEN
plan-heading-never = NEVER
plan-heading-waiting = NOT BEFORE A QUESTION IS ANSWERED
plan-heading-looks = LOOK AGAIN
plan-heading-watch = PHONE AT ONCE IF ANY OF THIS IS NEW OR WORSE
plan-heading-eggs = EGGS AND MEAT
plan-heading-pain = PAIN
plan-heading-asking = ASKING A VET
plan-heading-people = PEOPLE
plan-heading-days-after = THE DAYS AFTER
plan-heading-law = LAW
plan-heading-left-out = LEFT OUT ON PURPOSE
plan-heading-humane = HUMANE END

plan-withheld = Nobody eats her eggs or meat from the first use on.
# $names (text): products by their names, ended as a sentence
plan-used = Used: { $names }

# $what (text): what is never done, as a sentence that goes on
plan-never = Never: { $what }
# $why (text): why not, as a sentence
# $instead (text): what to do instead, as a sentence that goes on
plan-instead = { $why } Instead: { $instead }

# $topics (text): what is asked, ended as a sentence
plan-first-answer = First answer: { $topics } Then:
# $topics (text): what is asked, ended as a sentence
# $count (number): how many more are asked
plan-first-answer-more = First answer: { $topics } And { $count } more. Then:

plan-due-now = Now. Tell the vet too.
# $at (text): a moment
# $what (text): what has to be done
plan-due-by = At the latest about { $at }: { $what }. Sooner is better.
# $what (text): what has to be done
plan-due-past = Its best hours may be gone: { $what }, as soon as can be.
# $what (text): what has to be done
plan-due-unknown = Nobody knows when it happened: { $what }, as soon as can be.
# $at (text): a moment
plan-phone-by = Phone for advice by about { $at } at the latest. Sooner is better.
plan-phone-past = Phone for advice as soon as can be: its best hours may be gone.

plan-all-signs = all signs below
# $at (text): a moment
plan-looks-gone = Last looked at { $at }. Look now.
# $from (text): a moment
# $until (text): a moment
plan-night = No look from { $from } to { $until }: she is stable, and needs the dark. Eight hours is our own figure.
# $times (text): clock times, in a list
plan-looks-after = { $times }: the same
# $times (text): clock times, in a list
# $count (number): how many more
# $last (text): the moment of the last
plan-looks-after-more = { $times }, and { $count } more until { $last }: the same

plan-humane-not = A humane end is not in question.
plan-humane-may = A humane end may come into question.
plan-humane-unless = A humane end is advised unless a vet can act in time.
plan-humane-advised = A humane end is advised.
# $law (text): what a law says, as a sentence
plan-limit = A limit, not advice: { $law }
