### Sums about what is mixed: a stock made up to a strength, salt water, rehydration salts, printed recipes.

sum-mixing-solution = solution
sum-mixing-solution-formula = stock = amount x target / stock strength; water is the rest
sum-mixing-stock = stock
sum-mixing-water = boiled, cooled water
sum-mixing-made = made
# $volume (text): millilitres
# $percent (text): percent
sum-mixing-made-of = { $volume } mL of { $percent } %
sum-mixing-teaspoons = the stock in teaspoons, not more than
# $spoons (text): how many
sum-mixing-of-5-ml = { $spoons } of 5 mL
sum-mixing-drops = the stock in drops
sum-mixing-two-steps = or in two steps
# $thin (text): millilitres of what was thinned
# $water (text): millilitres of water
sum-mixing-ten-to-one = 1 part stock to 9 water; of that { $thin } mL and { $water } mL water
sum-mixing-two-or-more = must be two or more
sum-mixing-one-in-formula = made up to N parts: stock / N; added to N parts: stock / (N + 1)
# $parts (number): how many parts
sum-mixing-made-up-to = 1 part made up to { $parts }
# $parts (number): how many parts
sum-mixing-added-to = 1 part added to { $parts }
sum-mixing-for-that-much = for that much
# $stock (text): millilitres of stock
# $make (text): millilitres in all
sum-mixing-stock-water-to = { $stock } mL of stock, water to { $make } mL
sum-mixing-both-ways = "1 in N" is used both ways; the stronger reading is the first.

sum-mixing-saline = saline
sum-mixing-saline-formula = salt = water x strength; a percent is ten grams a litre
sum-mixing-strength = strength
sum-mixing-salt-weighed = salt, weighed
# $volume (text): millilitres
sum-mixing-water-to = to { $volume } mL
sum-mixing-level-teaspoons = in level teaspoons, about
sum-mixing-weigh-the-salt = Weigh the salt: a spoon is off by up to half.
sum-mixing-wounds-only = For wounds only. Never leave it as her drink: 5 g a litre is unacceptable for poultry (Veterinary Toxicology, Table 80.10).

sum-mixing-salts = salts
sum-mixing-salts-formula = WHO and UNICEF, low osmolarity: 2.6, 13.5, 1.5 and 2.9 g a litre
sum-mixing-too-little = is too little to weigh salts for; make a litre, or use a bought sachet
sum-mixing-salt = salt
sum-mixing-glucose = glucose
sum-mixing-potassium-chloride = potassium chloride
sum-mixing-trisodium-citrate = trisodium citrate
sum-mixing-holds-7-g = It holds 7 g of salts a litre, unfit as the only water of poultry: measured doses for some hours, plain water beside it.
sum-mixing-sachet = Only for a bird that is awake, upright and swallows. A bought sachet is safer than weighing.
sum-mixing-no-glucose = No glucose at hand: table sugar will do for hens, quail, ducks and geese; they can split it.

sum-mixing-recipe = recipe
sum-mixing-recipe-formula = grams / litres of water; a spoon of salt or sugar has no one weight
sum-mixing-recipes = '1 tbsp salt in 600 ml', '6 tsp sugar + 1/2 tsp salt in 1 l' or '5 ml of 10 % in 500 ml'
sum-mixing-lacks-in = lacks "in" and the water
sum-mixing-names-neither = names neither salt, sugar nor a stock with its strength
sum-mixing-no-amount = has an amount that is neither spoons nor grams
sum-mixing-more-stock = has more stock than water
sum-mixing-as-a-drink = as a drink
sum-mixing-true-salt = true strength, salt
sum-mixing-wanted = wanted
sum-mixing-against = against it
sum-mixing-true-sugar = true strength, sugar
sum-mixing-true-stock = true strength, the stock
sum-mixing-in-both-ways = Made up to that much, or added to it: "in" is used both ways, and both are told.
sum-mixing-whose-measure = the water, by whose measure it is
sum-mixing-printed-spoons = Weigh the salt: printed spoon recipes are off by up to three times.
sum-mixing-never-a-drink = Never leave salt water as her drink: 5 g a litre is unacceptable for poultry.
sum-mixing-drink-under-3 = under 3 g a litre: loosens droppings at most
sum-mixing-drink-3-to-5 = may be 3 to 5 g a litre: poor for poultry; doses only, water beside it
sum-mixing-drink-5 = 5 g a litre or more: UNACCEPTABLE as a drink for poultry
