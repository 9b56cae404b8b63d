### The steps of a plan: what is done, part by part, and how.

steps-heading-now = DO NOW, IN THIS ORDER
steps-heading-wound = THE WOUND
steps-heading-then-wound = THEN THE WOUND
# $place (text): where it is
steps-heading-wound-at = THE WOUND ({ $place })
# $place (text): where it is
steps-heading-then-wound-at = THEN THE WOUND ({ $place })
steps-heading-wounds = HER WOUNDS, ONE BY ONE
steps-heading-then-wounds = THEN HER WOUNDS, ONE BY ONE
steps-heading-leave = LEAVE THIS TO THE VET
steps-heading-not-yet = NOT BEFORE THE CHECK IS DONE
steps-heading-later = LATER
steps-heading-way = ON THE WAY
steps-heading-stays = WHERE SHE STAYS
steps-heading-flock = THE OTHER BIRDS
steps-heading-house = IN THE HOUSE

# $sign (text): a sign, as a sentence that goes on
steps-stop-if = Stop, and phone, if: { $sign }
# $sign (text): a sign, as a sentence that goes on
steps-phone-if = Keep at it, and phone a vet, if: { $sign }
# $sign (text): a sign, as a sentence that goes on
steps-worked-if = It has worked if: { $sign }
# $sign (text): a sign, as a sentence that goes on
steps-opens = Not before this is seen: { $sign }
# $source (text): what it rests on
# $borrowed (text): whose figures they are, or nothing
steps-way-rests-on = This way rests on: { $source }{ $borrowed }.
steps-leave = Cover, warmth and the drive come first. She will be cleaned and dressed there.
steps-not-yet = A vet may have to see her first. The check will tell.
steps-only-if-told = Only if you are told to bring her.
# $names (text): supplies by their names
steps-better-with = Better with: { $names }.
