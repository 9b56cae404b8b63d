### What stands in a calendar. It says what bird and when, and not how ill she is: calendars are seen by others.

# $bird (text): who she is
calendar-look = Look at { $bird }
# $bird (text): who she is
calendar-examine = Examine { $bird }: not examined to the end
# $what (text): what to look for, ended as a sentence
# $caution (text): the caution
calendar-look-for = Look for: { $what }
    In Coopside: f, then her name.
    { $caution }
# $caution (text): the caution
calendar-how = In Coopside: f, then her name.
    { $caution }
calendar-all-signs = all signs
