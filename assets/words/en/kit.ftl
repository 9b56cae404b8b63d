### The kit: what to have, and why what is there does not count.

kit-heading-missing = TO HAVE BEFORE IT HAPPENS
kit-heading-no-use = IN THE HOUSE, BUT OF NO USE
kit-heading-here = IN THE HOUSE
# $date (text): the last day it counts
kit-until = until { $date }
kit-past = Its date has gone: do not use it.
kit-strength-untold = Its strength is not told: read the label.
kit-too-weak = It is weaker than it must be.
