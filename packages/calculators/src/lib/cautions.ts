/** Every number here is advice to a clinician; these are the words in which it steps back. */
export const deferToDevice =
  'Local policy and the device maker’s instructions rule; this is a check, not an order.';
export const deferToDrug =
  'The prescription, local policy and the drug’s and device’s own instructions rule; this is a check, not an order.';
export const deferToClinician =
  'A licensed clinician judges the patient; local policy rules. This is a check, not an order.';
export const printedVolumeFirst =
  'Where the maker prints a volume on the limb or in the leaflet, use that volume instead of a computed one.';
