### What kinds of birds and their builds are called.

kinds-hen = hen
kinds-cock = cock
kinds-bantam = bantam
kinds-chick = chick
kinds-duck = duck
kinds-goose = goose
kinds-turkey = turkey
kinds-quail = quail
kinds-guinea-fowl = guinea fowl

kinds-light-hen = light, a laying breed
kinds-heavy-hen = heavy, broad and deep
kinds-light-cock = light, a laying breed
kinds-heavy-cock = heavy, broad and deep
kinds-tiny-bantam = tiny, pigeon size
kinds-large-bantam = a large bantam
kinds-small-duck = small, call or runner duck
kinds-farm-duck = farm duck or drake
kinds-muscovy-duck = Muscovy duck
kinds-muscovy-drake = Muscovy drake
kinds-light-goose = light goose
kinds-middle-goose = middling goose
kinds-heavy-goose = heavy goose
kinds-turkey-hen = turkey hen
kinds-turkey-stag = turkey stag
kinds-small-quail = Japanese quail
kinds-large-quail = bobwhite or jumbo quail
kinds-quail-chick = quail chick
kinds-chick-new = first week, not quail
kinds-chick-small = two or three weeks
kinds-chick-big = four to six weeks
