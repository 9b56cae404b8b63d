### Why a line stands.

# $reason (text): what the rule says
why-could-not-tell = Not ruled out, so it counts. { $reason }
# $reason (text): what the rule says
why-exception-open = { $reason } (One more question could still hold this back.)
# $rung (text): how far it is in question
why-humane = humane end { $rung }
# $what (text): what it leads to
why-not-settled = not settled, { $what }
# $source (text): what the finding rests on
why-finding = Finding: { $source }.
# $source (text): which source advises it
why-advice = Advice: the source itself, { $source }.
why-ours = Advice: our inference, not reviewed by a vet.
# $kind (text): whose figures they are
why-borrowed = Borrowed from: { $kind }.
