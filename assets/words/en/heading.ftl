### The headings of a document's parts, in capitals.

heading-verdict = VERDICT
heading-why = WHY
heading-still-open = STILL OPEN
heading-severity = BY PART OF THE BODY (no odds of survival)
heading-scores = TO COMPARE AT THE NEXT LOOK (our own words, no odds)
heading-could-be = COULD ALSO BE
heading-clashes = DO NOT FIT TOGETHER
heading-not-understood = NOT UNDERSTOOD BY THIS PROTOCOL, COUNTED AS CANNOT TELL
heading-fewest = FEWEST FINDINGS THAT BRING IT THERE
heading-ruled-out = WHAT RULED OUT WORSE
heading-would-change = WHAT WOULD CHANGE IT
heading-not-weighed = TOLD, BUT NOT WEIGHED
heading-caution = CAUTION
heading-words = WORDS
