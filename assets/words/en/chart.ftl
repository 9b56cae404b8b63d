### The bird drawn in letters: where her wounds are, and where no liquid may reach.

chart-heading-body = ON HER BODY
chart-heading-wounds = HER WOUNDS
chart-heading-dry = NO LIQUID GOES IN HERE, UNTIL A WOUND IS KNOWN TO BE SKIN ONLY

chart-marks = (1) wound, ! danger, !1! both
# $number (text): the wound's number
chart-on-left = { $number } (left)
# $number (text): the wound's number
chart-on-right = { $number } (right)
# $numbers (text): the wounds' numbers with their sides, in a list
# $count (number): how many there are
chart-wounds = { $count ->
    [one] Wound { $numbers }.
   *[other] Wounds { $numbers }.
}
# $under (text): what lies under it
chart-under = Under it: { $under }. Nothing goes in.
# $under (text): what lies under it
chart-skin-only = Skin only, over { $under }.
# $count (number): how many wounds
chart-unplaced = { $count ->
    [one] One wound is not in the picture: where is not told.
   *[other] { $count } wounds are not in the picture: where is not told.
}
chart-none = None found so far.
