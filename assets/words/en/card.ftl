### Cage cards for a shelter, several on a page.

card-cards = Cage cards
card-ended = Ended
card-need = Need
card-do-now = Do now
card-never = Never
card-next-look = Next look
# $name (text): her name, or her kind
# $number (text): the shelter's number
card-title = { $name } No. { $number }
# $name (text): her name, or her kind
# $number (text): the shelter's number
card-numbered = { $name }, number { $number }
card-closed = none: her case is closed
# $since (text): since when
card-examine = now: not examined to the end since { $since }
# $since (text): since when
card-overdue = now, due since { $since }
card-none-due = none is due
