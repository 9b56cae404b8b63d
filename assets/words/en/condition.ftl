### A rule's condition, as a vet reads it. What joins its parts stands in capitals.

condition-always = always
# $one (text): a part of the condition
# $other (text): another part
condition-and = { $one } AND { $other }
# $one (text): a part of the condition
# $other (text): another part
condition-or = { $one } OR { $other }
# $part (text): what is not so
condition-not = NOT { $part }
# $least (number): how many of them at least
# $parts (text): the parts, in a list
condition-count = at least { $least } of these: { $parts }
# $part (text): what a wound is
condition-some-wound = some wound with { $part }
# $measure (text): a value of a measure
condition-or-more = { $measure } or more
# $measure (text): a value of a measure
condition-less-than = less than { $measure }
# $part (text): a condition that has parts itself
condition-inner = ({ $part })
condition-nothing = nothing
# $mildest (text): an answer; those after it are graver
condition-or-worse = { $mildest }, or worse
# $one (text): an answer
# $other (text): another answer
condition-either = { $one } / { $other }
# $hours (number): hours
condition-hours-since = { $hours } h since she was hurt
# $minutes (number): minutes
condition-minutes-since = { $minutes } min since she was hurt
# $share (text): a figure in percent
condition-skin-open = { $share } % of her skin open
# $share (text): a figure in percent
condition-blood-lost = { $share } % of her blood lost
# $share (text): a figure in percent
condition-blood-of-weight = blood lost worth { $share } % of her weight
# $breaths (number): breaths in a minute
condition-breaths = { $breaths } breaths a minute
# $share (text): a figure in percent
condition-dryness = { $share } % of her weight lacking in water
