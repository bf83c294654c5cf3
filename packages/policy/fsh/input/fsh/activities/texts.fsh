// Steps, supplies and cautions that several kinds of care have in common, each written once.

// --- Steps and cautions

RuleSet: NoSmallSyringe
* insert Caution(Never use a syringe smaller than 10 mL.)

RuleSet: StopOnResistance
* insert Caution(Stop on resistance: do not force.)

RuleSet: NoScissors
* insert Caution(No scissors near the line.)

RuleSet: NoSuctionNoPressure
* insert Caution([[No vigorous suction and no pressure: the line can burst, the clot can be driven out.]])

RuleSet: StopOnResistanceAndLook
* insert Caution([[Stop on resistance: do not force; look for a kink, a closed clamp or a blocked lumen.]])

RuleSet: ClampBeforeConnector
* insert Caution([[Clamp the lumen before the connector comes off, so that no air gets in.]])

RuleSet: ClinicianDecidesOnRemoval
* insert Caution(Removal and replacement are the decision of the responsible clinician.)

RuleSet: ClampsClosed
* insert Caution(Every clamp closed before a cap comes off.)

// A hospital’s page on anaesthesia (seen): a competency is required.
RuleSet: TrainedForDialysisOnly
* insert Step([[Only staff trained for dialysis catheters open one: else stop here, and call them.]])

// A step where the line is broken, a caution where it comes out: kind is Step or Caution.
RuleSet: TakeItForAir(kind)
* insert {kind}([[Short of breath, chest pain or pale: take it for air in the vein and start with those first steps.]])

RuleSet: NotUsedUntilConfirmed
* insert Caution(A line that has moved is not used until the tip is confirmed.)

RuleSet: SeeClampsClosed
* insert Step(See that every clamp is closed before any cap comes off.)

RuleSet: WhenItHasStopped
* insert Step([[When it has stopped: gauze dressing, and look again within the hour.]])

// Notes of a consultant for vascular access (2010), a reply in a forum: reported, and they disagree.
RuleSet: TourniquetOfArmLine
* insert Caution([[Line in the arm that breaks while somebody sees it: a tourniquet high on the arm, loose enough that the pulse stays, left on, and imaging at once. Not seen, or at home: it is probably of no use; for a deep vein experts doubt it altogether.]])

// --- Supplies

RuleSet: Gloves
* insert Supply(gloves)
* insert Uses(latex)

RuleSet: ConnectorPad
* insert Supply(antiseptic pad for the connector)
* insert UsesIn(chlorhexidine, antiseptic pad for the connector)

RuleSet: SkinAntiseptic
* insert Supply(skin antiseptic as local policy names it)
* insert UsesIn(chlorhexidine, skin antiseptic as local policy names it)
* insert UsesIn(povidone-iodine, skin antiseptic as local policy names it)
* insert UsesIn(alcohol, skin antiseptic as local policy names it)
* insert UsesIn(octenidine, skin antiseptic as local policy names it)

RuleSet: FlushingSaline
* insert Supply(sodium chloride 0.9 % for flushing)

RuleSet: SterileGloves
* insert Supply(sterile gloves)
* insert Uses(latex)

RuleSet: DressingSet
* insert Supply(sterile dressing set)

RuleSet: Mask
* insert Supply(mask)

RuleSet: Ruler
* insert Supply(ruler)

RuleSet: Syringes
* insert Supply(10 mL syringes)

// What is prescribed may be any of these.
RuleSet: LockSolution
* insert Supply(lock solution as prescribed)
* insert MayBeAnyLock(lock solution as prescribed)

RuleSet: MayBeAnyLock(supply)
* insert UsesIn(heparin, {supply})
* insert UsesIn(citrate, {supply})
* insert UsesIn(taurolidine, {supply})
* insert UsesIn(benzyl-alcohol, {supply})
* insert MayLockWithAny

RuleSet: MayLockWithAny
* insert UsesFor(heparin, lock-volume)
* insert UsesFor(citrate, lock-volume)
* insert UsesFor(taurolidine, lock-volume)
* insert UsesFor(benzyl-alcohol, lock-volume)

RuleSet: Clamp
* insert Supply(clamp without teeth)

RuleSet: SameDressing
* insert Supply(new dressing of the kind that is in place)
* insert Uses(adhesive)
* insert UsesIn(chlorhexidine, new dressing of the kind that is in place)

RuleSet: SterileGauze
* insert Supply(sterile gauze)

RuleSet: HubPad
* insert Supply(antiseptic pad for the hub)
* insert UsesIn(chlorhexidine, antiseptic pad for the hub)

RuleSet: AirOcclusiveDressing
* insert Supply(air-occlusive dressing)
* insert Uses(adhesive)

RuleSet: LumenLabel
* insert Supply(label for the lumen)

RuleSet: SkinMarker
* insert Supply(skin marker)

RuleSet: Syringe
* insert Supply(10 mL syringe)

RuleSet: FilledConnector
* insert Supply([[needleless connector, filled with saline]])

RuleSet: Gauze
* insert Supply(gauze)

RuleSet: Saline
* insert Supply(sodium chloride 0.9 %)

RuleSet: GauzeDressing
* insert Supply(gauze dressing)

RuleSet: Securement
* insert Supply(securement device)
* insert Uses(adhesive)

RuleSet: Connector
* insert Supply(needleless connector)

RuleSet: Dressing
* insert Supply(dressing)
* insert Uses(adhesive)

RuleSet: Oxygen
* insert Supply(oxygen)

RuleSet: CultureBottles
* insert Supply(blood culture bottles)
