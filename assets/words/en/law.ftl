### What the law limits: the lines that touch a verdict, and a country's page.

# $law (text): which law
# $dated (text): of what date
# $strength (text): how well it is known
law-cited = { $law }, { $dated } ({ $strength }).
# $what (text): what was not found
# $holds (text): sentences: the strictest of what other countries say
law-not-known = Not known here: { $what }. What is strictest elsewhere holds: { $holds }
# $place (text): where it was looked for
law-looked-for = Looked for in { $place }; not found. Ask locally.
# Why no number to call ships, and where it is found.
law-no-number = No number to call stands here: they change. Look up your country's animal-health authority today, or ask any vet for it, and write it down with your own numbers.

law-heading-whose = WHOSE LAW
law-heading-humane = LIMITS ON A HUMANE END (a limit is never advice)
law-heading-treating = WHO MAY TREAT
law-heading-eggs = EGGS AND MEAT AFTER MEDICINE
law-heading-reporting = REPORTING
law-heading-dead = A DEAD BIRD
