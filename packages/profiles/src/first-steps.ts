import type { ActivityRow } from './activity-row.js';

/** The activities that are first steps in trouble: rows of the one list of activities. */
export const firstSteps = {
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
} as const satisfies Readonly<Record<string, ActivityRow>>;
