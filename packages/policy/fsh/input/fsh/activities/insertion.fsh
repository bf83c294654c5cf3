Instance: teaching-before-insertion
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(teaching-before-insertion, teaching, Explain the line before it goes in)
* insert Step([[Ask what the patient and the family know already, and what worries them.]])
* insert Step([[Explain what the line is for, where it will lie, how it is put in, how long it may stay, and what else could be done.]])
* insert Step([[Show how it is lived with: keep it dry, loop and tape it, no scissors near it, who touches it and how hands are cleaned.]])
* insert Step([[Name what is reported at once: fever or shivers, bleeding, redness, swelling of arm or neck, a wet dressing, a leak, breathlessness.]])
* insert Step([[Let the patient tell it back, answer the questions, and note who is to be told and in which language.]])
* insert Supply(written sheet in the patient’s language)
* insert Supply(model or picture of the line)
* insert Caution(Consent is taken by the one who puts the line in.)

Instance: laboratory-review
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(laboratory-review, laboratory-review, Look at the baseline results)
* insert Step([[Look up platelets and INR: value, unit, and when the sample was taken.]])
* insert Step([[Where one is missing or older than the policy allows, ask the one who puts the line in whether it is wanted, and take the sample now.]])
* insert Step([[Platelets below 20 10^9/L or an INR above 2.0: tell the one who puts the line in, now, not at the bedside.]])
* insert Step([[Ask for drugs that thin the blood and for bleeding in the past, and note them.]])
* insert Step([[Write down who was told, and what was decided.]])
* insert Supply([[sampling set, if a result is missing]])
* insert Caution(Limits differ with the procedure and the patient: the one who puts the line in decides.)
* insert Caution(A result that can’t be read counts as missing.)

Instance: bath-before-insertion
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(bath-before-insertion, bath, Wash with an antiseptic the evening before)
* insert Step([[Ask for allergies to the antiseptic, and look at the skin where the line is to go.]])
* insert Step([[Wash the whole body from the neck down, skin folds and navel too, with the antiseptic that local policy names; leave it on for as long as its instructions say.]])
* insert Step([[Do not shave; clip hair only where it is in the way, on the day.]])
* insert Step([[Dry with a clean towel; put on clean clothes and clean sheets; no cream or powder on the chest, the neck or the arm.]])
* insert Supply(antiseptic wash as local policy names it)
* insert UsesIn(chlorhexidine, antiseptic wash as local policy names it)
* insert UsesIn(octenidine, antiseptic wash as local policy names it)
* insert Supply(clean towel)
* insert Supply(clean clothes and sheets)
* insert Caution([[No chlorhexidine wash below two months of age (SHEA 2022), and none on broken skin.]])
* insert Caution([[Keep the antiseptic away from eyes, ears and mouth.]])

Instance: insertion-preparation
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(insertion-preparation, insertion-preparation, [[Get patient, papers and supplies ready]])
* insert Step([[Check name and date of birth against the wristband and the request; consent is signed, or it is noted why not.]])
* insert Step([[Ask for allergies: skin antiseptic, local anaesthetic, heparin, latex, adhesive.]])
* insert Step([[Ask for earlier lines and clots, for a pacemaker, and for vessels to be spared; no blood pressure and no needle on the arm that is chosen.]])
* insert Step([[Lay out full barrier: cap, mask, sterile gown and gloves, a drape for the whole body.]])
* insert Step([[Lay out the line with a second one in reach, connectors, and clamps for a line that has none of its own.]])
* insert Step([[Fill the flush syringes, none smaller than 10 mL, and label them.]])
* insert Step([[See that the tip can be confirmed afterwards, and that somebody watches the patient during the insertion.]])
* insert Supply([[cap, mask, sterile gown and gloves, whole-body drape]])
* insert Uses(latex)
* insert Supply([[line, and a second one in reach]])
* insert Supply(needleless connector for every lumen)
* insert Supply(clamps for a line without its own)
* insert Saline
* insert Syringes
* insert DressingSet
* insert Securement
* insert Caution(Whoever sees asepsis broken stops the procedure.)

Instance: skin-preparation
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(skin-preparation, skin-preparation, Prepare the skin)
* insert Step([[Wash visible dirt off with soap and water, and dry the skin.]])
* insert Step(Clip hair that is in the way; never shave.)
* insert Step([[Clean the skin with chlorhexidine above 0.5 % in alcohol, or with what local policy names; back and forth, with friction.]])
* insert Step([[Contact time: chlorhexidine in alcohol at least 30 seconds, povidone-iodine at least 2 minutes, or as its instructions say if longer.]])
* insert Step([[Let it dry by itself: no blotting, no fanning. Then do not touch the skin again.]])
* insert SkinAntiseptic
* insert Supply(sterile swabs)
* insert Supply(clipper with a single-use head)
* insert Caution(Chlorhexidine with care in premature infants and below two months: local policy decides.)
* insert Caution([[Alcohol burns: it must be dry, and none may have pooled, before diathermy is used.]])

Instance: teaching-at-home
InstanceOf: ActivityDefinition
Usage: #definition
* insert Work(teaching-at-home, teaching, Teach what to watch for)
* insert Supply(written list with the number to call)
* insert Caution([[Call for: fever of 38.0 °C (100.4 °F) or more.]])
* insert Caution(Call for: chills after a flush.)
* insert Caution(Call for: redness or drainage at the site.)
* insert Caution(Call for: a rash.)
* insert Caution(Call for: swelling of the arm or the neck.)
* insert Caution(Call for: a cuff that shows.)
* insert Caution([[Call for: a flush that goes hard (do not force it).]])
* insert Caution([[Call for: a break or a leak (clamp between it and the body).]])
* insert Caution(Call for: a wet dressing.)
* insert Caution([[Emergency: chest pain or breathlessness; if the line falls out, press on the site and call.]])
* insert Caution([[No blood pressure on that arm; keep the dressing dry, no submersion; a loop of tubing taped; clean hands; scrub the hub for 15 seconds.]])
