### A need in the fewest words.

# $need (text): the least it can be
need-not-settled = at least { $need }, not settled
