### A paired examination: where two people agree on one bird, question by question.

pair-heading-both = BOTH EXAMINATIONS
pair-heading-differently = TALK OVER: SEEN DIFFERENTLY
pair-heading-only-one = ONLY ONE OF YOU ANSWERED
pair-heading-same = THE SAME

# $same (number): how many answers are alike
# $of (number): of how many
# $share (text): percent
# $low (text): the low limit, in percent
# $high (text): the high limit, in percent
pair-alike = Alike in { $same } of { $of } answers, { $share } % (95 % { $low } to { $high }, Wilson 1927).
pair-need = Need, at least
pair-humane = Humane end
pair-authority = Animal-health authority
# $scale (text): which scale
# $rung (text): where both stand
pair-both = { $scale }: both { $rung }.
# $topic (text): a scale, or what was asked
# $one (text): what the novice's comes to
# $other (text): what the mentor's comes to
pair-apart = { $topic }: novice { $one }; mentor { $other }.
pair-graver-counts = For her, the graver of the two counts until you have looked again together.

pair-not-answered = not answered
pair-one-milder = one step milder
pair-much-milder = much milder
pair-one-graver = one step graver
pair-much-graver = much graver
pair-otherwise = otherwise
# $topic (text): what was asked
# $one (text): what the novice said
# $how (text): how that stands to what the mentor said
# $other (text): what the mentor said
pair-differs = { $topic }: novice { $one } ({ $how }); mentor { $other }.
