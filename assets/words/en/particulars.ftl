### What besides the signs is written down of a bird, and how it is asked.

particulars-breed = breed or class
particulars-age = age
particulars-sex = sex
particulars-laying = laying
particulars-flock = kept with
particulars-vaccines = vaccines
particulars-witness = seen by
particulars-given = given
particulars-done = done
particulars-not-done = not done
particulars-eggs-withheld = eggs withheld from
particulars-wants = what the keeper wants and can do
particulars-photos = photos
particulars-intake = intake number
particulars-keeper = keeper

particulars-ask-breed = For example: laying hybrid, brown.
particulars-ask-age = For example: two years, or hatched in May.
particulars-ask-sex = For example: hen, drake, not known.
particulars-ask-laying = For example: yes, last egg on Tuesday.
particulars-ask-flock = For example: eleven hens and a cock, none ill.
particulars-ask-vaccines = For example: none; or the names on the paper.
particulars-ask-witness = For example: the neighbour, at half past two.
particulars-ask-given = Product, strength, amount, hour. Each dose by itself.
particulars-ask-done = For example: pressed for ten minutes, rinsed with salt water.
particulars-ask-not-done = For example: not rinsed, it lies over an air sac.
particulars-ask-eggs-withheld = For example: from the evening of the 27th.
particulars-ask-wants = For example: a pet; treatment up to 150; no operation.
particulars-ask-photos = The names of the files, parted by commas.
particulars-ask-intake = The number on her cage.
particulars-ask-keeper = Name, address, phone. Told only if you ask for it.
