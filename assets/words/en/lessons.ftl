### Practice and scripted birds on the command line.

# $name (text): what was typed
# $what (text): what is wrong
lessons-no-bird = `{ $name }`: { $what } (coopside practise --list tells all)
# $name (text): what was typed
# $what (text): what is wrong
# $near (text): a name like it
lessons-no-bird-near = `{ $name }`: { $what }; did you mean `{ $near }`? (coopside practise --list tells all)
lessons-no-such-bird = there is no such scripted bird
# $faults (text): a line each
lessons-unpractised = this scenario cannot be practised:
    { $faults }
# $need (text): what was typed
lessons-no-need = `{ $need }` is no need; there are home, day, hours and now
# $faults (text): a line each
lessons-marks-unread = the marks of earlier goes cannot be read; mend these lines or move the file away:
    { $faults }
# $faults (text): a line each
lessons-unmarked = these goes cannot be marked:
    { $faults }
# $error (text): what the system said
lessons-unkept = the marks could not be kept: { $error }
# $error (text): what went wrong
lessons-no-table = the marks could not be set as a table: { $error }
lessons-pair = a pair is two files of notes
# $file (text): a file
lessons-is-lesson = { $file }: a lesson; the protocol gives what it expects
# $file (text): a file
lessons-is-bird = { $file }: a bird to be judged; the protocol gives what it expects
# $count (number): how many faults
# $faults (text): a line each
lessons-faults = { $count ->
    [one] { $count } fault:
   *[other] { $count } faults:
}
    { $faults }
# $count (number): how many faults
# $faults (text): a line each
lessons-faults-of-shipped = { $count ->
    [one] { $count } fault:
   *[other] { $count } faults:
}
    { $faults }
    Held against the shipped protocol. For one of your own: coopside scenario check --protocol FOLDER FILE
# $file (text): a file
lessons-written = Written: { $file }. Check it with: coopside scenario check { $file }
# $ending (text): how the file's name ends
lessons-no-form = the ending `.{ $ending }` names no form; there are .pdf, .html, .md, .txt and .ron, or say --form
lessons-no-ending = no ending names no form; there are .pdf, .html, .md, .txt and .ron, or say --form
# $faults (text): a line each
lessons-form-refused = this form was not taken in:
    { $faults }
lessons-form-new = Kept on this machine.
lessons-form-before = This very form was taken in before; it is kept once.
# $most (number): the most that are kept
lessons-form-full = { $most } forms are kept already, and this one was not taken in; begin another --data folder
lessons-form-unwritable = this form could not be written down, and was not taken in; nothing else was changed
# $path (text): a file
lessons-form-no-text = { $path } is not text (UTF-8); a form is plain text
lessons-taken-in = TAKEN IN
lessons-told-beside = BESIDE THESE IT IS TOLD
lessons-changed-since = CHANGED SINCE THE FORM WAS PRINTED, SO TOLD NOWHERE
lessons-missing = MISSING, IT SAYS
# $signed (text): who signed it
lessons-form-of = A form of: { $signed }.
