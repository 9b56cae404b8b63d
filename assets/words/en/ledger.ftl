### What can go wrong with the ledger, and what to do next.

# $cause (text): what the system said
# $path (text): where it was looked for
ledger-unopened = the ledger cannot be opened ({ $cause }); let its folder be written, or give another place with --data ({ $path })
# $path (text): where it stands
ledger-newer = a newer Coopside wrote this ledger; use that one, or give another place with --data ({ $path })
# $path (text): where it stands
ledger-older = an older Coopside wrote this ledger; start `coopside` once where it can be written ({ $path })
# $version (text): the version that was found
ledger-old-sqlite = SQLite { $version } can lose data with two windows open; 3.51.3 or newer is needed
ledger-clash = another window has gone on with this bird; both are kept, open her again to see what it wrote
ledger-full = the disk is full; free some room, it will be tried again
ledger-held = another program holds the ledger; close it, or try again in a moment; nothing was changed
# $cause (text): what was found
# $path (text): where it stands
ledger-damaged = the ledger is damaged, or is none ({ $cause }); it is left as it is; `coopside restore` brings back the newest good backup ({ $path })
ledger-read-only = the ledger can only be read here; nothing new can be kept; make its folder writable, or give another place with --data
# $name (text): what was asked for
ledger-no-case = no case `{ $name }`; `coopside cases` lists them all
# $name (text): what was asked for
# $count (number): how many
ledger-several = `{ $name }` stands for { $count } cases; give more of the name, as `coopside cases` shows it
# $path (text): where it stood
ledger-gone = the ledger was deleted, moved or cut short while it was open ({ $path }); put it back, or let its folder be written: what was said here is then written there again; `coopside restore` brings back a backup of the rest
# $case (text): its short name
# $found (number): how many entries there are
# $expected (number): how many there should be
ledger-not-whole = case { $case } is not whole: { $found } of its { $expected } entries can be found; none is shown, for what is missing may be the worst; nothing was changed. `coopside restore` brings back the newest backup; `coopside export -o FILE` writes what can still be read
# $case (text): its short name, with the bird's
# $bird (text): who she is
ledger-case-of = { $case } ({ $bird })
# $answer (text): what the disk said
ledger-disk = the disk answers: { $answer }; it will be tried again
# $case (text): the case
# $seq (text): the entry's place in it
# $wrong (text): what is wrong
ledger-unreadable = case { $case } cannot be read at event { $seq } ({ $wrong }); the others can, and nothing was changed; a backup from before may hold it whole: `coopside restore`
# $line (text): its number, from 1
# $what (text): what is wrong
ledger-line = line { $line }: { $what }; nothing was taken in
# $told (text): how many its first line tells of
# $found (text): how many it holds
ledger-file-not-whole = the file tells of { $told } events and holds { $found }: it is not whole; nothing was taken in
# $line (text): its number, from 1
# $case (text): the case
ledger-differs = line { $line }: case { $case } has gone on differently in this ledger; import it into one of its own with --data; nothing was taken in
ledger-not-open = the ledger is not open
ledger-written-again = The ledger was deleted, moved or cut short. What was said here is written again. Other birds may be missing: leave, then `coopside restore`.
ledger-not-on-disk = what was said is not on disk yet; another bird can be opened once it is
# $path (text): a file
ledger-sheet-written = Written: { $path }. It prints on one page.
# $error (text): what the system said
ledger-go-unkept = This go could not be kept: { $error }
ledger-open-elsewhere = it is open in another window; leave that first
ledger-backup-differs = the backup does not hold what the ledger holds

# $at (text): a moment, in UTC
ledger-no-moment = { $at } is no moment of an examination
# $number (text): the wound's number, from 1
# $most (text): the most wounds of one bird
ledger-wound-number = wound number { $number } is more than the { $most } one bird is told to have
ledger-control = a text holds letters that no one types (control characters)
# $grams (text): grams
ledger-weight = a weight of { $grams } g is outside 5 g to 30 kg

# $schema (text): what the first line must name
ledger-line-empty = empty; expected `{ $schema }`
# $told (text): what the first line names
# $schema (text): what it must name
ledger-line-schema = schema `{ $told }` is not known here; expected `{ $schema }`
# $body (text): a number
ledger-line-newer = written by a newer Coopside (body { $body }); take that one to read it
# $case (text): the case
ledger-line-gap = events of case { $case } are missing between those that are there
# $case (text): the case
# $wounds (text): how many wounds
# $most (text): the most wounds of one bird
ledger-line-wounds = case { $case } tells of { $wounds } wounds; one bird has { $most } at most
ledger-line-name = a name holds what no ledger writes
ledger-line-too-long = longer than any event; expected JSON lines
ledger-line-not-text = not text; expected JSON lines
# $wrong (text): what is wrong, as the reader of JSON says it
# $letter (text): at which letter, from 1
ledger-line-unread = { $wrong }, at letter { $letter }
