### What commands print besides documents, and why one could not do what was asked.

# $path (text): a folder
# $count (number): how many faults
# $faults (text): a line each
command-translation-faults = { $count ->
    [one] the translation in { $path } has { $count } fault:
   *[other] the translation in { $path } has { $count } faults:
}
    { $faults }
# $moment (text): what was given
command-no-moment = { $moment } is no moment of an examination; give one of our time, as 2026-05-01T08:30:00Z
# $faults (text): a line each
command-notes-unjudged = these notes cannot be judged:
    { $faults }
# $faults (text): a line each
command-notes-untold = these notes cannot be told:
    { $faults }
# $version (text): the protocol's version
# $questions (number): how many
# $rules (number): how many
# $actions (number): how many
# $sources (number): how many
# $fingerprint (text): the protocol's fingerprint
command-protocol-counts = protocol { $version }: { $questions } questions, { $rules } rules, { $actions } actions, { $sources } sources; fingerprint { $fingerprint }
# $count (number): how many faults
# $faults (text): a line each
command-protocol-faults = { $count ->
    [one] the protocol has { $count } fault:
   *[other] the protocol has { $count } faults:
}
    { $faults }
# $told (text): what was given
# $known (text): every country, in a list
command-no-country = `{ $told }` (from --country or COOPSIDE_COUNTRY) is no country this program knows; it knows { $known }
# $id (text): a name as it is typed
# $name (text): what it is called
command-known = { $id } ({ $name })
# $id (text): a name as it is typed
# $name (text): what it is called
command-known-quoted = `{ $id }` ({ $name })
# $value (text): what was given
command-no-value = `{ $value }` is no value; write name=value, for example weight='2 kg'
command-sums = Sums: coopside reckon WHAT name=value ..
command-may-be-left-out = (may be left out)
# $example (text): a command
command-for-example = for example: { $example }
# $path (text): a file
# $error (text): what the system said
command-unread = { $path } cannot be read: { $error }
# $path (text): a folder
command-no-folder = { $path } is no folder; a protocol is a folder of .ron files
# $path (text): a folder
command-no-ron = { $path } holds no .ron file; start from a copy of the folder assets/protocol that comes with the source
# $path (text): a folder
# $ends (text): how the files end
command-no-texts = { $path } holds no .{ $ends } file
# $path (text): a file
# $files (number): the most files
# $bytes (text): the most bytes
# $root (text): a folder
command-too-large = { $path }: with this file the folder holds more than a protocol may, { $files } .ron files and { $bytes } bytes; is { $root } the folder of a protocol?
# $path (text): a folder
command-link-back = { $path } leads to a folder that was read already; a protocol holds each once: take the link out
# $name (text): a file
# $line (number): its line
command-no-utf8 = { $name }:{ $line }: this is not text (UTF-8); a protocol file is plain text
# $path (text): a file
command-there-already = { $path } is there already and was left as it was: give another name
# $path (text): a file
# $error (text): what the system said
command-unwritten = { $path } cannot be written: { $error }
# $error (text): what the system said
command-output-unwritten = the output could not be written: { $error }
# $path (text): a file
command-written = Written: { $path }
command-pdf-to-screen = a PDF does not go to the screen; give a file with -o
# $error (text): what went wrong
command-page-unset = the page could not be set: { $error }
# $error (text): what went wrong
command-pdf-unset = the PDF could not be set: { $error }
# $error (text): what went wrong
command-cards-unset = the cards could not be set: { $error }
command-one-bird = a sheet tells of one bird; for several: --cards, or one command each
# $ending (text): how the file's name ends
command-no-form = the ending `.{ $ending }` names no form; there are .html, .pdf, .md, .txt and .json, or say --form
command-no-ending = no ending names no form; there are .html, .pdf, .md, .txt and .json, or say --form
# $path (text): a folder
# $error (text): what the system said
command-folder-unmade = { $path } could not be made: { $error }
# $path (text): a file
# $error (text): what the system said
command-nothing-left = { $path } could not be written; nothing was left behind: { $error }
# $path (text): a file
command-over = { $path } is there already; it is left as it is. --over writes over it
command-needs-terminal = the examination needs a terminal; line by line it goes without one: `coopside --spoken`. To judge a file of notes, use `coopside judge FILE`
# $error (text): what the system said
command-no-signals = signals cannot be listened to: { $error }
# $error (text): what the system said
command-no-screen = the terminal cannot be taken over: { $error }
# $error (text): what the system said
command-screen-failed = the screen failed: { $error }
# $error (text): what the system said
command-no-home = no home folder is known; give a place with --data: { $error }
# $lost (number): how many answers
# $why (text): why not
# $path (text): a file
command-set-aside = coopside: { $lost } answers could not be kept in the ledger: { $why }
    They are safe in { $path }; when the ledger can be written again: coopside import { $path }
# $lost (number): how many answers
# $why (text): why not
command-lost = coopside: { $lost } answers could not be kept: { $why }
command-no-answer = the disk did not answer in time
command-practice-ended = Practice ended. How it goes: coopside practise --group
command-kept = Kept. Start again and press g to go on with this bird.
command-no-ingredients = no ingredients; copy them from the label, parted by commas
# $told (text): what was given
command-no-day = `{ $told }` (from --given) is no day that has come; write it as 2026-05-01
# $told (text): what was given
# $known (text): every use, in a list
command-no-use = `{ $told }` (from --on) is none of: { $known }
# $names (text): every name, in a list
command-names-with = Names for --with: { $names }.
command-not-written-down = not written down
command-on-this-machine = Kept on this machine only.
# $path (text): a file
# $error (text): what the system said
command-stays = { $path } could not be written; it is as it was: { $error }
# $path (text): a file
# $what (text): what is wrong
command-not-laid-out = { $path }, { $what }; none of its lines was changed
# $path (text): a file
command-laid-out = laid out: { $path }
# $folder (text): a folder
# $files (text): a line each
command-laid-out-differently = these files are laid out differently; `coopside format { $folder }` mends them:
    { $files }
command-all-laid-out = every file is laid out already
# $files (number): how many
# $folder (text): where they are
command-words-begun = { $files } files in { $folder }. Translate what follows each `=`, then: coopside words check { $folder }
# $folder (text): where it is
# $same (number): how many texts are as in English
# $all (number): how many there are
command-words-whole = { $same ->
    [0] { $folder } is whole: { $all } texts, none of them as in English.
    [one] { $folder } has every text; { $same } of { $all } is still as in English.
   *[other] { $folder } has every text; { $same } of { $all } are still as in English.
} Nobody has reviewed it: that is told wherever it is used.
# $folder (text): a folder
command-words-there = { $folder } is there already and was left as it is; name another folder, or translate what is in it
command-broke = Coopside broke. What it showed as saved is kept: start it again and press g.
