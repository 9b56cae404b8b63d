### The cases on the command line: lists, one case, backups, what is carried out and in.

cases-none = No case here.
cases-none-due = Nothing is due now. `coopside cases` tells what comes next.
# $count (number): how many are not shown
cases-more = and { $count } more; `coopside cases LETTERS` looks for some.
cases-not-told = a bird not told
# $name (text): her name
# $kind (text): what bird she is
cases-bird = { $name }, { $kind }
# $case (text): the case's short name
# $bird (text): who she is
# $state (text): how it stands with her
cases-line = { $case }  { $bird }; { $state }
# $case (text): the case's short name
# $bird (text): who she is
# $state (text): how it stands with her
# $since (text): since when
cases-line-due = { $case }  { $bird }; { $state }; LOOK NOW, due since { $since }
# $case (text): the case's short name
# $bird (text): who she is
# $state (text): how it stands with her
# $at (text): when
cases-line-ahead = { $case }  { $bird }; { $state }; next look { $at }
# $state (text): how it ended
# $need (text): her need then
cases-then = { $state }; then: { $need }
# $need (text): her need then
cases-archived = archived; { $need }
# $need (text): her need
cases-open = { $need }; open
# $bird (text): who she is
# $need (text): her need
# $case (text): the case's name
# $by (text): the protocol that tells it
# $kept (text): the protocols it was kept by
cases-case = { $bird }: { $need }
    case { $case }
    Told by protocol { $by }; kept while it was { $kept }.
# $before (text): a protocol
# $then (text): the next
cases-then-protocol = { $before }, then { $then }
# $version (text): a protocol's version
# $fingerprint (text): the start of its fingerprint
cases-protocol = { $version } ({ $fingerprint })
cases-no-ledger = there is no ledger yet
cases-no-ledger-yet = There is no ledger yet.
cases-cannot-cancel = coopside: the ledger can only be read: looks that fall away later cannot be cancelled
# $count (number): how many looks
# $path (text): a file
cases-reminders = { $count } looks in { $path }. Your calendar may not sound the alarm; Coopside does while it is open.
# $cases (text): what could not be read, in a row
cases-not-in-calendar = no look of these stands in the calendar: { $cases }
# $path (text): a file
# $events (number): how many
cases-backup = { $path } holds { $events } events, opened and checked.
# $file (text): what was named
# $folder (text): where backups are
cases-no-such-backup = { $file } is no good backup of this ledger; none was restored; those there are stand in { $folder }
# $folder (text): where backups are
cases-no-backup = none was restored; those there are stand in { $folder }
# $events (number): how many
# $at (text): when they were backed up
cases-restored = Restored { $events } events as they were { $at }.
# $count (number): how many
cases-restored-lacking = { $count } of its cases are not whole; no backup holds them all.
# $path (text): a file
cases-kept-aside = What stood there is kept as { $path }.
# $events (number): how many
# $path (text): a file
cases-exported = { $events } events in { $path }.
# $cases (text): a line each
cases-not-whole = what could be read is written, and is not all; a backup from before may hold it whole: `coopside restore`
    { $cases }
# $case (text): its short name
# $found (number): how many entries there are
# $expected (number): how many there should be
cases-lacking = case { $case }: { $found } of { $expected } entries
# $case (text): its short name
# $bird (text): who she is
# $found (number): how many entries there are
# $expected (number): how many there should be
cases-lacking-bird = case { $case } ({ $bird }): { $found } of { $expected } entries
# $new (number): how many events are new
# $known (number): how many were there
# $cases (number): how many cases have something new
cases-imported = { $new } events taken in, { $known } were there already; { $cases ->
    [0] no case has
    [one] { $cases } case has
   *[other] { $cases } cases have
} something new.
# $path (text): a file
# $error (text): what the system said
cases-file = { $path }: { $error }
# $path (text): a file
cases-no-calendar = { $path } is there and is no calendar of ours; give another name
# $path (text): a folder
cases-not-for-practice = { $path } holds birds that are not for practice; it is left as it is
