/** Code, display and definition of one concept. */
export type Concept<Code extends string = string> = readonly [
  code: Code,
  display: string,
  definition: string,
];

type CodeOf<List extends readonly Concept[]> = List[number][0];

export const lineTypes = [
  [
    'tunneled-cvc',
    'Tunneled central venous catheter',
    'Central venous catheter with a subcutaneous tunnel between vein and exit site.',
  ],
  [
    'nontunneled-cvc',
    'Non-tunneled central venous catheter',
    'Central venous catheter that leaves the skin at the puncture of the vein.',
  ],
  [
    'picc',
    'Peripherally inserted central catheter',
    'Catheter inserted in an arm vein with its tip in a central vein.',
  ],
  [
    'implanted-port',
    'Implanted port',
    'Catheter joined to a chamber under the skin that is reached with a non-coring needle.',
  ],
  [
    'tunneled-dialysis-catheter',
    'Tunneled dialysis catheter',
    'Large-bore tunneled catheter for haemodialysis or apheresis.',
  ],
  [
    'nontunneled-dialysis-catheter',
    'Non-tunneled dialysis catheter',
    'Large-bore catheter for haemodialysis or apheresis without a tunnel.',
  ],
  ['midline', 'Midline catheter', 'Catheter inserted in an arm vein with its tip below the axilla.'],
  ['lumen', 'Lumen', 'One channel of a line; the Device’s parent is the line.'],
] as const satisfies readonly Concept[];
export type LineType = Exclude<CodeOf<typeof lineTypes>, 'lumen'>;

export const lineProperties = [
  ['lumen-count', 'Lumen count', 'Number of lumens of the line.'],
  ['outer-diameter', 'Outer diameter', 'Outer diameter in French, UCUM [Ch].'],
  ['inner-diameter', 'Inner diameter', 'Inner diameter of the lumen, UCUM mm.'],
  ['length', 'Length', 'Length of the catheter, UCUM cm.'],
  [
    'priming-volume',
    'Priming volume',
    'Internal volume of the lumen with its extension as printed on it, UCUM mL.',
  ],
  ['external-length', 'External length', 'Length outside the skin when inserted, UCUM cm.'],
  ['clamp', 'Clamp', 'Whether the line has clamps of its own: integral or none.'],
  ['cuffed', 'Cuffed', 'Whether the line has a tissue cuff: true or false.'],
] as const satisfies readonly Concept[];
export type LineProperty = CodeOf<typeof lineProperties>;

export const dressingTypes = [
  ['gauze-dressing', 'Gauze dressing', 'Gauze, also gauze under a transparent dressing.'],
  ['transparent-dressing', 'Transparent dressing', 'Transparent semipermeable dressing.'],
  ['chlorhexidine-dressing', 'Chlorhexidine dressing', 'Transparent dressing with chlorhexidine.'],
  ['no-dressing', 'No dressing', 'The site is left open on purpose.'],
] as const satisfies readonly Concept[];
export type DressingType = CodeOf<typeof dressingTypes>;

export const securementTypes = [
  ['adhesive-device', 'Adhesive securement device', 'Holds the catheter by adhesive on the skin.'],
  ['subcutaneous-anchor', 'Subcutaneous anchor', 'Holds the catheter by anchors under the skin.'],
  ['tissue-adhesive', 'Tissue adhesive', 'Glue at the exit site.'],
  ['sutures', 'Sutures', 'Stitches hold the catheter.'],
  ['no-securement', 'No securement', 'Nothing holds the catheter but its dressing.'],
] as const satisfies readonly Concept[];
export type SecurementType = CodeOf<typeof securementTypes>;

export const dressingConditions = [
  ['intact', 'Intact', 'Dry, closed on all sides, clean.'],
  ['damp', 'Damp', 'Moist on or beneath the dressing.'],
  ['loosened', 'Loosened', 'An edge has lifted.'],
  ['soiled', 'Soiled', 'Blood, pus or dirt is visible.'],
] as const satisfies readonly Concept[];

export const connectorConditions = [
  ['clear', 'Clear', 'Nothing is visible in the connector.'],
  ['blood-residue', 'Blood residue', 'Blood is left in the connector.'],
  ['debris', 'Debris', 'Anything else is visible in the connector.'],
  ['contaminated', 'Contaminated', 'The connector touched something that is not clean.'],
] as const satisfies readonly Concept[];

export const lineSites = [
  ['exit-site', 'Exit site', 'Where the catheter leaves the skin; of a port, where the needle enters.'],
  ['incision', 'Incision', 'The incision over the vein or the port pocket.'],
] as const satisfies readonly Concept[];

export const infusates = [
  ['blood', 'Blood or blood product', 'Red cells, platelets, plasma, whole blood.'],
  ['fat-emulsion', 'Fat emulsion', 'Lipid alone, or not known whether alone or in a mixture.'],
  ['nutrition-with-fat', 'Parenteral nutrition with fat', 'Lipid mixed with the rest in one bag (3-in-1).'],
  ['propofol', 'Propofol', 'Propofol in its fat emulsion.'],
  ['parenteral-nutrition', 'Parenteral nutrition', 'Parenteral nutrition that holds no fat.'],
  ['pressure-monitoring', 'Pressure monitoring', 'Fluid that keeps a line open whose pressure is measured.'],
  ['other', 'Other', 'Known to be none of the others.'],
] as const satisfies readonly Concept[];
export type Infusate = CodeOf<typeof infusates>;

export const taskInputs = [
  ['site', 'Site', 'Exit site or incision.'],
  ['lumen', 'Lumen', 'Which lumen, where the line has no Device for each.'],
  ['flush-volume', 'Flush volume', 'Least volume of the flush, mL.'],
  ['lock-volume', 'Lock volume', 'Volume of the lock, mL.'],
  ['syringe-size', 'Syringe size', 'Least nominal size of the syringe, mL.'],
  ['thrombolytic-dose', 'Thrombolytic dose', 'Dose of alteplase for a blocked lumen, mg.'],
  ['step', 'Step', 'What to do; the steps stand in their order.'],
  ['supply', 'Supply', 'What to bring.'],
  ['caution', 'Caution', 'What to mind.'],
  ['question', 'Question', 'What to ask the responsible clinician before it is done.'],
] as const satisfies readonly Concept[];
export type TaskInput = CodeOf<typeof taskInputs>;

export const taskOutputs = [
  ['met-by', 'Met by', 'The event that did the care.'],
] as const satisfies readonly Concept[];

export const dueStates = [
  ['upcoming', 'Upcoming', 'Not to be done yet.'],
  ['due', 'Due', 'May be done now, in time.'],
  ['overdue', 'Overdue', 'The latest time has passed.'],
  ['held', 'Held', 'Must not be done until the hold ends.'],
] as const satisfies readonly Concept[];
export type DueState = CodeOf<typeof dueStates>;

/** The most serious first. */
export const lumenStates = [
  ['not-to-be-used', 'Not to be used', 'A hold is in force: nothing may be connected to the lumen for now.'],
  ['damaged', 'Damaged', 'A leak, a cut or a puncture was found and no repair is on record since.'],
  ['blocked', 'Blocked', 'It gave no blood or could not be flushed, and was not found open since.'],
  ['sluggish', 'Sluggish', 'Blood came slowly or the flush met resistance, and it was not found open since.'],
  ['infusing', 'Infusing', 'Something runs through the lumen.'],
  [
    'to-be-flushed',
    'To be flushed',
    'An infusion ended or blood was drawn, and no flush is on record since.',
  ],
  ['flushed', 'Flushed, no lock', 'It was flushed and no lock is on record since.'],
  ['locked', 'Locked', 'It was locked and not used since.'],
  ['unknown', 'Use not known', 'The record does not tell what it is used for; it may be in use.'],
] as const satisfies readonly Concept[];
export type LumenStateCode = CodeOf<typeof lumenStates>;

export const closingReasons = [
  ['line-removed', 'Line removed', 'The line is no longer in place.'],
  ['line-inserted', 'Line inserted', 'The line that was planned is in.'],
  ['plan-withdrawn', 'Plan withdrawn', 'The insertion is no longer planned.'],
  [
    'line-not-on-record',
    'Line not on record',
    'The line is not on record any more, or was entered in error.',
  ],
  ['patient-deceased', 'Patient deceased', 'The patient has died.'],
  ['no-longer-asked-for', 'No longer asked for', 'No rule of the policy asks for it any more.'],
  ['event-corrected', 'Event corrected', 'The event it counted from was changed or entered in error.'],
  ['duplicate', 'Duplicate', 'Another Task stands for the same care.'],
] as const satisfies readonly Concept[];
export type ClosingReason = CodeOf<typeof closingReasons>;

export const recordIssues = [
  ['unreadable', 'Unreadable', 'Not FHIR, or an element that can’t be read.'],
  ['unresolved-reference', 'Unresolved reference', 'The resource that is pointed to is not there.'],
  ['merged-record', 'Merged record', 'The record of a patient was merged into that of another.'],
  ['unknown-code', 'Unknown code', 'A code that is not known where one is needed.'],
  ['unknown-unit', 'Unknown unit', 'A unit that can’t be converted.'],
  ['implausible-value', 'Implausible value', 'A value outside of what can be.'],
  ['conflicting-values', 'Conflicting values', 'Two results of one collection disagree.'],
  ['no-insertion', 'No insertion', 'A line with no insertion on record.'],
  ['several-insertions', 'Several insertions', 'A line with more than one insertion.'],
  ['several-removals', 'Several removals', 'A line with more than one removal.'],
  [
    'several-plans',
    'Several plans',
    'More than one insertion is planned for a patient, and they may be of one line.',
  ],
  ['event-before-insertion', 'Event before insertion', 'An event on a line that was not yet in.'],
  [
    'charted-twice',
    'Charted twice',
    'Two events that are the same one: of one activity, on one target, at almost the same time or under one identifier.',
  ],
  ['event-after-removal', 'Event after removal', 'An event on a line that was already out.'],
  [
    'unknown-lumen',
    'Unknown lumen',
    'An event on a lumen that the line does not have, or that does not say which.',
  ],
  ['missing-time', 'Missing time', 'An event or a result with no time.'],
  ['imprecise-time', 'Imprecise time', 'A time given as a day, a month or a year.'],
  ['against-a-hold', 'Against a hold', 'What was done, or runs on, while a hold forbids it.'],
  [
    'drug-not-for-line',
    'Drug not for this line',
    'A drug that harms tissue runs through a line whose tip lies in a small vein.',
  ],
  [
    'tip-not-confirmed',
    'Tip not confirmed',
    'Something runs through a line whose tip is still to be confirmed.',
  ],
  [
    'planned-time-passed',
    'Planned time passed',
    'An insertion was planned for a day that is over, and none is on record.',
  ],
  [
    'appointment-cancelled',
    'Appointment cancelled',
    'The appointment of an order was cancelled, and no new one is on record.',
  ],
  [
    'done-not-charted',
    'Done, not charted',
    'A Task was marked as done, and nothing that was charted tells of it.',
  ],
  [
    'two-policies',
    'Two policies',
    'Tasks of one server are kept by two policies that ask for different care.',
  ],
  [
    'unanswered-finding',
    'Unanswered finding',
    'A finding that something is wrong, which no rule of the policy in force answers.',
  ],
  [
    'part-of-no-count',
    'Part of no count',
    'A share of the leucocytes, or bands, with nothing of the same collection to make a neutrophil count of.',
  ],
  [
    'assumed',
    'Assumed',
    'What the record does not say by itself, and was read so: by a text, or from the rows of a chart.',
  ],
  ['unreadable-order', 'Unreadable order', 'A patient’s order whose timing can’t be read.'],
] as const satisfies readonly Concept[];
export type RecordIssueCode = CodeOf<typeof recordIssues>;
