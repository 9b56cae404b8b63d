### What is read aloud: units and times of day in words, what stands before a line, signs that are no words.

speech-grams = grams
speech-millilitres = millilitres
speech-percent = percent
speech-percent-an-hour = percent an hour
speech-a-minute = a minute
speech-degrees = degrees Celsius
speech-minutes = minutes
speech-hours = hours
speech-days = days
speech-millimetres = millimetres
speech-centimetres = centimetres
speech-square-millimetres = square millimetres
speech-square-centimetres = square centimetres
speech-grams-a-day = grams a day
speech-times = times
speech-kilograms = kilograms
speech-litres = litres
speech-to = to
speech-by = by
speech-is = is
speech-over = over
speech-plus = plus

# $number (number): 0 to 59, as the clock tells it
speech-number = { $number ->
    [0] zero
    [1] one
    [2] two
    [3] three
    [4] four
    [5] five
    [6] six
    [7] seven
    [8] eight
    [9] nine
    [10] ten
    [11] eleven
    [12] twelve
    [13] thirteen
    [14] fourteen
    [15] fifteen
    [16] sixteen
    [17] seventeen
    [18] eighteen
    [19] nineteen
    [20] twenty
    [21] twenty one
    [22] twenty two
    [23] twenty three
    [24] twenty four
    [25] twenty five
    [26] twenty six
    [27] twenty seven
    [28] twenty eight
    [29] twenty nine
    [30] thirty
    [31] thirty one
    [32] thirty two
    [33] thirty three
    [34] thirty four
    [35] thirty five
    [36] thirty six
    [37] thirty seven
    [38] thirty eight
    [39] thirty nine
    [40] forty
    [41] forty one
    [42] forty two
    [43] forty three
    [44] forty four
    [45] forty five
    [46] forty six
    [47] forty seven
    [48] forty eight
    [49] forty nine
    [50] fifty
    [51] fifty one
    [52] fifty two
    [53] fifty three
    [54] fifty four
    [55] fifty five
    [56] fifty six
    [57] fifty seven
    [58] fifty eight
    [59] fifty nine
   *[other] { $number }
}
speech-midnight = midnight
# $number (number): the day of the week, from Monday on
speech-weekday = { $number ->
    [1] Monday
    [2] Tuesday
    [3] Wednesday
    [4] Thursday
    [5] Friday
    [6] Saturday
   *[other] Sunday
}
# $hour (text): the hour in words
speech-full-hour = { $hour } o'clock
# $hour (text): the hour in words
# $minute (text): the minutes in words, fewer than ten
speech-clock-oh = { $hour } oh { $minute }
# $hour (text): the hour in words
# $minute (text): the minutes in words
speech-clock = { $hour } { $minute }

# $number (number): which act of a list it is
# $act (text): the act
speech-act = { $number ->
    [1] First: { $act }
    [2] Second: { $act }
    [3] Third: { $act }
    [4] Fourth: { $act }
    [5] Fifth: { $act }
   *[other] Number { $number }: { $act }
}
# $heading (text): a heading
speech-title = { $heading }.
# $heading (text): a heading
# $count (number): how many lines stand under it
speech-heading = { $count ->
    [one] { $heading }. One thing.
   *[other] { $heading }. { $count } things.
}

# $minutes (number): whole minutes
speech-left-minutes = { $minutes ->
    [one] one minute
   *[other] { $minutes } minutes
}
# $seconds (number): seconds
speech-left-seconds = { $seconds ->
    [one] one second
   *[other] { $seconds } seconds
}
# $minutes (text): whole minutes, in words
# $seconds (number): seconds beyond them
speech-left-both = { $minutes } { $seconds }
