# The headings of a document's parts, in capitals.
section-by-when = BY WHEN
section-caution = CAUTION
section-words = WORDS
