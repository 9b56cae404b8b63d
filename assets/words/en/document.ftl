### What stands on every document.

# $law (text): what the chosen country's law adds
document-caution = Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first. { $law }
document-own-caution = Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first.
document-other-vets = Phone other vets too: one may see her sooner.
# $at (text): when it was judged
# $version (text): the protocol's version
# $print (text): the first letters of its fingerprint
document-made = COOPSIDE, { $at }, protocol { $version } ({ $print })
