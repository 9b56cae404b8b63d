### How parts are put together: lists, moments.

# $before (text): what comes first
# $last (text): one more
grammar-list = { $before }, { $last }
# $before (text): what comes first
# $last (text): one more, which may hold commas itself
grammar-clauses = { $before }; { $last }
# $before (text): a sentence
# $last (text): the sentence after it
grammar-row = { $before } { $last }
# $text (text): what is ended as a sentence
grammar-ended = { $text }.
# $day (number): the day of the week, Monday is 1
grammar-weekday = { $day ->
    [1] Mon
    [2] Tue
    [3] Wed
    [4] Thu
    [5] Fri
    [6] Sat
   *[other] Sun
}
# $month (number): the month, January is 1
grammar-month = { $month ->
    [1] Jan
    [2] Feb
    [3] Mar
    [4] Apr
    [5] May
    [6] Jun
    [7] Jul
    [8] Aug
    [9] Sep
    [10] Oct
    [11] Nov
   *[other] Dec
}
# $month (number): the month, January is 1
grammar-month-whole = { $month ->
    [1] January
    [2] February
    [3] March
    [4] April
    [5] May
    [6] June
    [7] July
    [8] August
    [9] September
    [10] October
    [11] November
   *[other] December
}
# $weekday (text): the day of the week
# $time (text): the time of day
grammar-clock = { $weekday } { $time }
# $weekday (text): the day of the week
# $date (text): the day of the month, in two digits
# $month (text): the month, short
# $time (text): the time of day
grammar-day = { $weekday } { $date } { $month } { $time }
# $weekday (text): the day of the week
# $date (text): the day of the month
# $month (text): the month, short
grammar-day-alone = { $weekday } { $date } { $month }
# $date (text): the day of the month
# $month (text): the month, whole
# $time (text): the time of day
grammar-far = { $date } { $month }, { $time }
# $day (text): the day of the month, in two digits
# $month (text): the month, short
grammar-day-of-month = { $day } { $month }

# $low (text): the low end of a figure
# $high (text): the high end
grammar-between = { $low } to { $high }
# $figure (text): a figure
# $unit (text): its unit
grammar-with-unit = { $figure } { $unit }
