### What stands on every document.

# $law (text): what the chosen country's law adds
document-caution = Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first. { $law }
document-own-caution = Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first.
document-other-vets = Phone other vets too: one may see her sooner.
