import type { ActivityRow } from './activity-row.js';
import type { Concept } from './codes.js';
import { insertionCodes } from './standard-codes.js';

// What local policy may name for the skin.
const skinAntiseptics = { chlorhexidine: [], 'povidone-iodine': [], alcohol: [], octenidine: [] } as const;

/**
 * Everything that is done to a line: the one list of activities. What the engine, the sheet for home or a reader must
 * know of one is a column here, and a property of its concept in the code system line-care-activity.
 */
export const activities = {
  insertion: {
    display: 'Insertion',
    definition: 'Placing the line.',
    scope: 'line',
    role: 'begins-line',
    putsDressingOn: 'where-said',
    setsExternalLength: true,
    atHome: 'unit',
    mayUse: { ...skinAntiseptics, adhesive: [], latex: [] },
    snomed: [...insertionCodes.keys()],
  },
  'tip-confirmation': {
    display: 'Tip confirmation',
    definition: 'Confirming where the tip lies before the line is used.',
    scope: 'line',
    setsExternalLength: true,
    atHome: 'unit',
    confirmsTip: true,
  },
  'site-assessment': {
    display: 'Site assessment',
    definition: 'Looking at and feeling the exit site and the tunnel.',
    scope: 'exit-site',
    look: true,
    atHome: 'patient',
    visit: 'site',
    atHome: 'anybody',
  },
  'dressing-change': {
    display: 'Dressing change',
    definition: 'Renewing the dressing with skin antisepsis.',
    scope: 'exit-site',
    putsDressingOn: 'always',
    // Replacement of dressing of insertion site of vascular catheter; change of dressing: seen in the same mapping.
    snomed: ['1230246000'],
    snomedOnLine: ['18949003'],
    atHome: 'patient',
    leftAtHome: true,
    visit: 'site',
    mayUse: { chlorhexidine: [], 'povidone-iodine': [], alcohol: [], octenidine: [], adhesive: [] },
    visit: 'dressing',
    mayUse: { ...skinAntiseptics, adhesive: [] },
  },
  flush: {
    display: 'Flush',
    definition: 'Rinsing a lumen.',
    scope: 'lumen',
    throughLumen: true,
    leavesLumen: 'as-it-was',
    turn: 3,
    namesLumen: true,
    atHome: 'patient',
    leftAtHome: true,
    visit: 'lumen',
  },
  lock: {
    display: 'Lock',
    definition: 'Filling a lumen that is not in use.',
    scope: 'lumen',
    throughLumen: true,
    leavesLumen: 'locked',
    turn: 4,
    namesLumen: true,
    atHome: 'patient',
    leftAtHome: true,
    visit: 'lumen',
    mayUse: {
      heparin: ['lock-volume'],
      citrate: ['lock-volume'],
      taurolidine: ['lock-volume'],
      'benzyl-alcohol': ['lock-volume'],
    },
  },
  'needleless-connector-change': {
    display: 'Needleless connector change',
    definition: 'Renewing the connector or cap of a lumen.',
    scope: 'lumen',
    namesLumen: true,
    atHome: 'patient',
    visit: 'site',
  },
  'administration-set-change': {
    display: 'Administration set change',
    definition: 'Renewing the infusion set and its add-ons.',
    scope: 'lumen',
    namesLumen: true,
    impliedBy: 'start-of-infusion',
    // Changing intravenous infusion line: seen in the same mapping.
    snomedOnLine: ['225199003'],
    atHome: 'patient',
    visit: 'lumen',
    atHome: 'unit',
  },
  'blood-sampling': {
    display: 'Blood sampling',
    definition: 'Drawing blood through the line.',
    scope: 'lumen',
    throughLumen: true,
    leavesLumen: 'as-it-was',
    turn: 2,
    flushAfter: true,
    countsUnsuccessful: true,
    putsToUse: true,
    atHome: 'unit',
  },
  'patency-assessment': {
    display: 'Patency assessment',
    definition: 'Testing that a lumen flushes and returns blood.',
    scope: 'lumen',
    throughLumen: true,
    look: true,
    atHome: 'unit',
  },
  'external-length-measurement': {
    display: 'External length measurement',
    definition: 'Measuring the catheter outside the skin.',
    scope: 'line',
    look: true,
    atHome: 'patient',
    visit: 'site',
  },
  'clamp-position-change': {
    display: 'Clamp position change',
    definition: 'Moving the clamp and its sleeve to a new place.',
    scope: 'line',
    atHome: 'patient',
    visit: 'site',
  },
  'securement-change': {
    display: 'Securement change',
    definition: 'Renewing the device that holds the catheter.',
    scope: 'line',
    atHome: 'patient',
    visit: 'site',
    mayUse: { chlorhexidine: [], 'povidone-iodine': [], alcohol: [], octenidine: [], adhesive: [] },
    atHome: 'unit',
    visit: 'dressing',
    mayUse: { ...skinAntiseptics, adhesive: [] },
  },
  'suture-removal': {
    display: 'Suture removal',
    definition: 'Taking out the securing stitches.',
    scope: 'exit-site',
    atHome: 'unit',
  },
  'access-needle-change': {
    display: 'Access needle change',
    definition: 'Placing or renewing the non-coring needle of a port.',
    scope: 'line',
    putsToUse: true,
    needle: 'in',
    // Accessing of implantable venous access port: seen in the same mapping.
    snomed: ['397958003'],
    atHome: 'unit',
    visit: 'site',
    mayUse: { chlorhexidine: [], 'povidone-iodine': [], alcohol: [], octenidine: [], adhesive: [] },
    visit: 'dressing',
    mayUse: { ...skinAntiseptics, adhesive: [] },
  },
  'access-needle-removal': {
    display: 'Access needle removal',
    definition: 'Taking the non-coring needle out of a port.',
    scope: 'line',
    needle: 'out',
    atHome: 'unit',
  },
  bath: {
    display: 'Antiseptic bath',
    definition: 'Washing with an antiseptic.',
    scope: 'line',
    preparesInsertion: true,
    atHome: 'anybody',
    mayUse: { chlorhexidine: [], octenidine: [] },
  },
  'laboratory-review': {
    display: 'Laboratory review',
    definition:
      'Looking at the results that bear on an insertion or a removal, and acting on what is missing.',
    scope: 'line',
    preparesInsertion: true,
    atHome: 'unit',
  },
  'insertion-preparation': {
    display: 'Insertion preparation',
    definition: 'Getting patient, papers and supplies ready for the insertion.',
    scope: 'line',
    preparesInsertion: true,
    atHome: 'team',
  },
  'skin-preparation': {
    display: 'Skin preparation',
    definition: 'Cleaning the skin with an antiseptic before the insertion.',
    scope: 'line',
    preparesInsertion: true,
    atHome: 'team',
    mayUse: skinAntiseptics,
  },
  'line-identification': {
    display: 'Line identification',
    definition:
      'Finding out which line it is, from its print, the record of its insertion or whoever put it in: type, lumens, volumes, and whether it is for dialysis.',
    scope: 'line',
    look: true,
    atHome: 'unit',
  },
  'necessity-review': {
    display: 'Necessity review',
    definition: 'Asking whether the line is still needed.',
    scope: 'line',
    look: true,
    atHome: 'team',
    visit: 'site',
  },
  'air-entry-response': {
    display: 'Air entry response',
    definition: 'First steps when air has entered a line.',
    scope: 'line',
  },
  'breakage-response': {
    display: 'Breakage response',
    definition: 'First steps when a line leaks, is cut or is torn.',
    scope: 'line',
  },
  'bleeding-response': {
    display: 'Bleeding response',
    definition: 'First steps when the exit site or the incision bleeds.',
    scope: 'line',
  },
  'extravasation-response': {
    display: 'Extravasation response',
    definition: 'First steps when fluid has left the vein.',
    scope: 'line',
  },
  'fever-response': {
    display: 'Fever response',
    definition: 'First steps when a patient with a line has fever or shivers.',
    scope: 'line',
    ofPatient: true,
  },
  'sepsis-response': {
    display: 'Sepsis response',
    definition: 'First steps at signs of sepsis in a patient with a line.',
    scope: 'line',
  },
  'chest-symptom-response': {
    display: 'Chest symptom response',
    definition:
      'First steps at chest pain, shortness of breath or an irregular heart beat in a patient with a line.',
    scope: 'line',
  },
  'infection-sign-response': {
    display: 'Infection sign response',
    definition: 'First steps at signs of infection of the exit site, the tunnel or the pocket.',
    scope: 'line',
  },
  'swelling-response': {
    display: 'Swelling response',
    definition: 'First steps when the arm, the neck or the face swells.',
    scope: 'line',
  },
  'new-site-response': {
    display: 'New site response',
    definition: 'First steps when the exit site or the incision of a new line drains much or swells.',
    scope: 'line',
  },
  'migration-response': {
    display: 'Migration response',
    definition: 'First steps when a line has moved.',
    scope: 'line',
  },
  'retained-catheter-response': {
    display: 'Retained catheter response',
    definition: 'First steps when a piece of a line that was taken out has stayed in the body.',
    scope: 'line',
  },
  'blockage-response': {
    display: 'Blockage response',
    definition: 'First steps when a lumen is sluggish or blocked.',
    scope: 'line',
  },
  'occlusion-treatment': {
    display: 'Occlusion treatment',
    definition: 'Treating a blocked lumen.',
    scope: 'line',
    throughLumen: true,
    namesLumen: true,
    countsUnsuccessful: true,
    atHome: 'unit',
    mayUse: { thrombolytic: ['thrombolytic-dose'] },
  },
  repair: {
    display: 'Repair',
    definition: 'Repairing the external part of a line.',
    scope: 'line',
    atHome: 'unit',
  },
  'splint-removal': {
    display: 'Splint removal',
    definition: 'Taking off the splint of a repaired segment.',
    scope: 'line',
    atHome: 'unit',
  },
  'infusion-start': {
    display: 'Infusion start',
    definition: 'Connecting an infusion to a lumen.',
    scope: 'line',
    throughLumen: true,
    leavesLumen: 'infusing',
    turn: 5,
    namesLumen: true,
    countsUnsuccessful: true,
    putsToUse: true,
    atHome: 'unit',
    leftAtHome: true,
  },
  'infusion-stop': {
    display: 'Infusion stop',
    definition: 'Disconnecting an infusion from a lumen.',
    scope: 'line',
    throughLumen: true,
    leavesLumen: 'open',
    turn: 1,
    namesLumen: true,
    flushAfter: true,
    impliedBy: 'end-of-infusion',
    atHome: 'unit',
  },
  teaching: {
    display: 'Teaching',
    definition: 'Teaching the patient and the family.',
    scope: 'line',
    preparesInsertion: true,
    atHome: 'unit',
  },
  removal: {
    display: 'Removal',
    definition: 'Taking the line out.',
    scope: 'line',
    role: 'ends-line',
    atHome: 'unit',
    // Removal of central venous line; removal of catheter, accidental removal of catheter: seen in the hand-made mapping
    // of intensive-care charts that `insertionCodes` names.
    snomed: ['175853000'],
    snomedOnLine: ['103715008', '439377004'],
  },
  'removed-catheter-check': {
    display: 'Removed catheter check',
    definition:
      'Looking whether a line that was taken out is whole: its tip, and its length against the length on record.',
    scope: 'line',
  },
  'getting-up': {
    display: 'Getting up after a removal',
    definition: 'Letting the patient up after lying flat for a removal.',
    scope: 'line',
    leftAtHome: true,
  },
} as const satisfies Readonly<Record<string, ActivityRow>>;

export type LineCareActivity = keyof typeof activities;

const rows: Readonly<Record<LineCareActivity, ActivityRow>> = activities;

/** Every activity, in the order of the table. */
export const activityCodes = Object.keys(activities) as readonly LineCareActivity[];

/** The activities as concepts of their code system. */
export const lineCareActivities: readonly Concept<LineCareActivity>[] = activityCodes.map((code) => [
  code,
  rows[code].display,
  rows[code].definition,
]);

/** What the table says of an activity. */
export function activityRow(activity: LineCareActivity): ActivityRow {
  return rows[activity];
}

/** The activities of which the table says so, in its order. */
export function activitiesWhere(says: (row: ActivityRow) => unknown): readonly LineCareActivity[] {
  return activityCodes.filter((code) => Boolean(says(rows[code])));
}

/** The activity with which a line begins or ends. */
export function activityOfRole(role: NonNullable<ActivityRow['role']>): LineCareActivity {
  const [activity] = activitiesWhere((row) => row.role === role);
  if (activity === undefined) throw new RangeError(`No activity has the role ${role}.`);
  return activity;
}
