### What a mix comes to for a wound, by the table of strengths.

sum-bottle-for-a-wound = for a wound
sum-bottle-its-strength = its strength
# $why (text): why not
sum-bottle-not = NOT: { $why }
# $what (text): on what it is put
sum-bottle-not-thinned = NOT thinned: { $what }
sum-bottle-ask-a-vet = ask a vet.
sum-bottle-two-stocks = UNCHECKED: two stocks in one. Never mix them for a wound.
sum-bottle-never-scrub = Never a scrub, a tincture or a teat dip.
sum-bottle-never-into = Never into a hole, an eye or a wound over an air sac. Ask a vet before any of it.
# $published (text): the strength that is published
# $why (text): what a stronger one does
sum-bottle-stronger = STRONGER than the { $published } that is published for wounds: { $why }
# $published (text): the strength that is published
# $why (text): what a stronger one does
sum-bottle-perhaps-stronger = may be STRONGER than the { $published } that is published for wounds: { $why }
# $published (text): the strength that is published
sum-bottle-right = as is published: { $published }
# $weak (text): what a weaker one is
# $published (text): the strength that is published
sum-bottle-perhaps-weaker = may be { $weak }: published is { $published }
# $weak (text): what a weaker one is
# $published (text): the strength that is published
sum-bottle-weaker = { $weak }: published is { $published }
# $family (text): a family of substances
# $published (text): the strength that is published
sum-bottle-family-is = { $family } is { $published }
# $families (text): each family with its strength
sum-bottle-unchecked = UNCHECKED: for wounds { $families }. Nothing else is thinned for a wound.
# $percent (text): a strength
# $grams (text): grams of salt
sum-bottle-in-a-litre = { $percent } % ({ $grams } g in a litre)
# $why (text): what it does
sum-bottle-salt-too-strong = TOO STRONG: { $why }
# $why (text): what it does
sum-bottle-salt-too-weak = too weak: { $why }
sum-bottle-salt-right = right
sum-bottle-salt-perhaps-strong = may be too strong: weigh the salt
sum-bottle-salt-perhaps-weak = may be right or weak: weigh the salt
