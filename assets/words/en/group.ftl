### What a mentor sees of a group's goes.

group-heading-next = WHAT TO PRACTISE NEXT (schedule SM-2, Wozniak 1990)
group-heading-how = HOW TO READ IT
group-heading-all = ALL GOES
group-heading-nameless = WITHOUT A NAME

group-how-urgent = Urgent means: a vet at once, or a humane end advised unless one can act in time.
group-how-too-low = Too low has two published meanings: of the urgent, those missed (one minus sensitivity); and of those given as not urgent, those that were (the trauma matrix). Too high likewise. Papers differ; compare like with like.
group-how-aim = The American trauma surgeons' committee aims at 5 in 100 or fewer too low, and accepts 25 to 35 in 100 too high (its matrix; from memory).
group-how-services = Real services miss that: a Dutch region 21.6 in 100 too low and 30.6 too high; an Alpine one 17.6 and 76.6.
group-how-kappa = Kappa counts agreement beyond chance (Cohen 1960, 1968; limits after Fleiss, Cohen and Everitt 1969). It hangs on how many of each there were: look at the table, too. Kappas of different weights cannot be compared (Warrens 2013).
group-how-limits = Limits of shares after Wilson 1927; exact ones after Clopper and Pearson 1934.

# $count (number): how many goes
group-other = { $count ->
    [one] { $count } go under another protocol: read, and not mixed in.
   *[other] { $count } goes under another protocol: read, and not mixed in.
}
# $count (number): how many goes
# $same (number): in how many of them the need was right
group-right = { $count ->
    [one] { $count } go; the need was right in { $same }.
   *[other] { $count } goes; the need was right in { $same }.
}
group-table = Need: rows are the reference, columns what was given
group-few = So few goes say little; the limits tell how little.
# $harmful (number): in how many goes
# $count (number): of how many
group-harmful = Something that harms was done in { $harmful } of { $count }.

group-unweighted = Kappa: unweighted
group-linear = linear
group-quadratic = quadratic
# $name (text): which kappa
# $value (text): its value
# $low (text): the low limit
# $high (text): the high limit
group-kappa = { $name } { $value } (95 % { $low } to { $high })
# $name (text): which kappa
group-no-kappa = { $name }: not defined for these goes

group-sensitivity = Urgent birds found (sensitivity)
group-too-low = Too low, of the urgent
group-too-low-given = of those given as not urgent
group-too-high = Too high, of those not urgent
group-too-high-given = of those given as urgent
# $name (text): what is counted
# $hits (number): how many
# $of (number): of how many
# $share (text): percent
# $limits (text): the limits
group-share = { $name }: { $hits } of { $of }, { $share } % ({ $limits })
# $low (text): the low limit, in percent
# $high (text): the high limit, in percent
# $exact-low (text): the exact low limit, in percent
# $exact-high (text): the exact high limit, in percent
group-limits = 95 % { $low } to { $high }; exact { $exact-low } to { $exact-high }
# $name (text): what is counted
group-nothing-to-count = { $name }: nothing to count

# $topic (text): a sign
# $count (number): how often it was missed
group-sign = { $topic } ({ $count })
# $signs (text): signs, ended as a sentence
group-missed-most = Missed most: { $signs }

group-nameless = without a name
# $name (text): a novice's name
# $birds (text): the lessons that are due
group-next-now = { $name }: now { $birds }.
# $name (text): a novice's name
# $bird (text): the lesson that comes next
# $day (text): the day it is due
group-next-later = { $name }: nothing now; { $bird } on { $day }.
# $name (text): a novice's name
group-next-anything = { $name }: anything.
