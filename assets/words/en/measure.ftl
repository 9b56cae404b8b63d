### What a measure means: the line that was crossed, and how a rate stands to what is published.

measure-blood-little = no line crossed, as far as this tells: watch her; if it still bleeds, press
measure-blood-six-thousandths = more than 0.6 in 100 of her weight may be gone: a vet within hours
measure-blood-tenth = a tenth of her blood may be gone: a vet within hours
measure-blood-hundredth = a hundredth of her weight may be gone: a vet at once
measure-blood-fifth = a fifth of her blood may be gone; lost fast, that can kill: a vet at once
measure-blood-three-tenths = three tenths of her blood may be gone: a vet at once
measure-blood-half = half of her blood may be gone: a vet at once
# The same without a vet's clock, for where no vet can be reached.
measure-blood-six-thousandths-alone = more than 0.6 in 100 of her weight may be gone
measure-blood-tenth-alone = a tenth of her blood may be gone
measure-blood-hundredth-alone = a hundredth of her weight may be gone
measure-blood-fifth-alone = a fifth of her blood may be gone; lost fast, that can kill
measure-blood-three-tenths-alone = three tenths of her blood may be gone
measure-blood-half-alone = half of her blood may be gone

measure-skin-little = no line crossed; place, depth and cause decide
measure-skin-two = two in a hundred of her skin may be open: a vet within a day
measure-skin-five = five in a hundred may be open: a vet at once
measure-skin-ten = a tenth or more may be open: a vet at once, and a serious talk

measure-breaths-slower = slower than published: look at her again
measure-breaths-within = as it is published for her kind at rest
measure-breaths-faster = FASTER than published
measure-breaths-edge = at the edge: count again

measure-weight-noise = within what a full crop or an egg explains
measure-weight-some = a little: weigh again tomorrow, the same hour, crop empty
measure-weight-twentieth = a twentieth or more: weigh again tomorrow; see that she eats
measure-weight-tenth = a tenth or more: a vet within a day
measure-weight-fifteen = fifteen in a hundred or more: a vet at once
measure-weight-fifth = a fifth or more: a vet at once, and ask plainly how she suffers
# The same without a vet's clock.
measure-weight-tenth-alone = a tenth or more
measure-weight-fifteen-alone = fifteen in a hundred or more
measure-weight-fifth-alone = a fifth or more

measure-mouth-cold = she is cold: her gut stands still; warm her first
measure-mouth-limp = she is limp or does not respond
measure-mouth-fitting = she fits
measure-mouth-breathless = she fights for breath
measure-mouth-head-down = she cannot hold her head up or swallow
measure-mouth-crop-full = her crop is full, or it comes up again
measure-mouth-neck-hurt = her head, neck or crop is hurt
measure-mouth-on-her-side = she lies on her side

measure-window-closing = closing a cut: best at once; many vets close none after
measure-window-bite = any bite treated by a vet: at once, at the latest
measure-window-nerves = watch for nerve signs until
