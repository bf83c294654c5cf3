import { none, row, type Reading } from './second-reading-rows.js';

// The second reading of the layers that a unit lays over the default policy. Numbers in `states` stand in the source, those
// in `reads` are the layer’s own.

const child = 'patient.ageDays < 6575';
const neonate = 'patient.ageDays <= 28';
const olderThanNeonate = 'patient.ageDays > 28';
const rnao = 'RNAO, clinical best practice guideline, node 805';
const label = 'US labels of heparin lock flush solutions, read in a secondary page';
const homeSheet = 'a public home care sheet of a university hospital for tunneled catheters';
const ins = 'INS 2021, Infusion Therapy Standards of Practice';
const memory = 'from memory';

const draws: readonly Reading[] = [
  row(
    'blood-sampling',
    ['blood-sampling'],
    none,
    `${rnao} (seen: 3 to 6 mL or 2 × dead space, 6 × for coagulation); Royal Marsden Manual, chapter 13 (seen: 5 to 10 mL)`,
    'the volume that is discarded differs between the sources',
    { reads: [child] },
    'no source for 6 mL before and 3 mL after, which lie within what the sources give: said so',
  ),
  row(
    'blood-sampling',
    ['blood-sampling-child'],
    'seen',
    rnao,
    'discard 2 × dead space, 6 × for coagulation',
    { reads: [child, 'patient.ageDays >= 366'] },
    'as the source says; who is a child (18 years) is the layer’s own',
  ),
  row(
    'blood-sampling',
    ['blood-sampling-infant'],
    'seen',
    rnao,
    'discard 2 × dead space, 6 × for coagulation',
    { reads: ['patient.ageDays < 366'] },
    'as the source says; no source for a lock that is left to the order in the first year of life: said so',
  ),
  row(
    'blood-sampling',
    ['blood-sampling-dialysis', 'blood-sampling-dialysis-child'],
    'seen',
    'instructions of dialysis catheters',
    'the lock is drawn out of each lumen before use, else the patient is heparinised',
    { reads: [child] },
    'as the source says; a line whose type is not on record is read as one',
  ),
];

const everyDay: readonly Reading[] = [
  row('common-practice', ['clamp-position-change'], none, none, 'clamp and sleeve move every week', {
    reads: ['every 7 d'],
  }),
  row(
    'common-practice',
    ['flush-idle-daily'],
    none,
    'NHS Ayrshire & Arran G004 (seen) has weekly',
    'an idle lumen is irrigated every day',
    { reads: ['every 1 d'] },
    'no source, and more often than the one that was seen: said so on the rule',
  ),
  row(
    'common-practice',
    ['lock-after-irrigation'],
    'seen',
    label,
    'the lock is replaced after every use',
    { reads: ['patient.ageDays >= 366'] },
    'as the source says of heparin; saline is treated alike, and the first year of life is left out: the layer’s own',
  ),
  row(
    'common-practice',
    ['needleless-connector-change-idle'],
    none,
    `${homeSheet} (seen) and NHS Ayrshire & Arran G004 (seen) have weekly too; INS (as reported) not more often than 96 h`,
    'the cap of a locked lumen is changed every week',
    { reads: ['every 7 d', 'spacing 96 h'] },
  ),
  row(
    'dialysis',
    ['dressing-change-dialysis-session'],
    'seen',
    'CDC-HICPAC 2011, category IB, as syndicated by HHS',
    'ointment at the exit site of a dialysis catheter after insertion and at the end of each session, if the material allows it',
    { reads: ['at 20:00:00'] },
    'as the source says; days and time are invented, said so',
  ),
  row(
    'dialysis',
    ['lock-dialysis-session'],
    'seen',
    'PreCLOT trial, PMC1459124',
    'lumens of dialysis catheters locked three times a week, at each session',
    { reads: ['at 20:00:00'] },
    'as the source says; days and time are invented, said so',
  ),
  row(
    'home-care',
    ['necessity-review-home'],
    none,
    'CDC 2011 (IA) asks to remove a line promptly; daily review is said of acute care only',
    'at home the need is asked about at the weekly care',
    { reads: ['every 7 d'] },
  ),
  row(
    'home-care',
    ['needleless-connector-change-home'],
    'seen',
    homeSheet,
    'change the cap at least weekly',
    { states: ['every 7 d'], reads: ['spacing 96 h'] },
    'as the source says; the spacing is that of INS, as reported',
  ),
  row('home-care', ['site-assessment-home'], 'seen', homeSheet, 'look at the site every day', {
    states: ['every 1 d'],
  }),
  row(
    'home-care',
    ['teaching-at-home'],
    'seen',
    `${homeSheet}, and those of further hospitals`,
    'what to call for, and what is an emergency',
    { reads: ['at most 1', 'every 1 d', 'until 1 d'] },
    'as the sources say; no source says when, 38.0 °C is taken for 100.5 °F, the earlier call',
  ),
];

const children: readonly Reading[] = [
  row(
    'infant',
    ['dressing-change-gauze'],
    'seen',
    'SHEA/IDSA/APIC 2022, licensed summary; neonates by INS 2021 (from memory)',
    'gauze of non-tunneled lines, adults and children, every 2 days or earlier',
    { states: ['every 2 d'], reads: [olderThanNeonate] },
    'as the source says; that neonates are left to need is from memory, and said so',
  ),
  row(
    'infant',
    ['dressing-change-transparent'],
    'seen',
    'SHEA/IDSA/APIC 2022, licensed summary; the exception of neonates from memory',
    'transparent dressings with site care at least every 7 days, at once if soiled, loose or damp',
    { states: ['every 7 d'], reads: [olderThanNeonate] },
    'as the source says; that neonates are left to need is from memory, and said so',
  ),
  row(
    'infant',
    ['flush-first-year-idle'],
    none,
    'no guideline that was seen gives infants intervals of their own',
    'saline at least every 24 hours while the lumen is idle',
    { reads: ['every 24 h', olderThanNeonate, 'patient.ageDays < 366'] },
  ),
  row(
    'infant',
    ['lock-neonate'],
    'seen',
    'Auckland newborn service, heparin administration protocol 2005',
    'idle central lines of neonates: heparin 10 units/mL every 72 hours',
    { states: ['every 72 h'], reads: [neonate] },
    'as the source says; a local protocol, and other values are named on the rule',
  ),
  row(
    'infant',
    ['lock-neonate-after-blood-sampling', 'lock-neonate-after-infusion'],
    'seen',
    label,
    'the lock is replaced after every use of the device',
    { reads: [neonate] },
    'as the source says; 100 units/mL is not for neonates, the layer’s strength is 10',
  ),
  row(
    'infant',
    ['site-assessment-neonate'],
    memory,
    'INS 2016, 2021 and 2024',
    'site checks every hour in neonates, of peripheral catheters',
    { states: ['every 1 h'], reads: [neonate] },
    'from memory, and of peripheral catheters: taken for every line by choice, said so',
  ),
];

const severe: readonly Reading[] = [
  row(
    'intensive-care',
    ['site-assessment-intensive-care'],
    memory,
    'INS 2016, 2021 and 2024',
    'site checks every 1 to 2 hours in critical illness and sedation, of peripheral catheters',
    { states: ['every 2 h'] },
    'from memory, and of peripheral catheters: the longer end for every line by choice, said so',
  ),
  row(
    'neutropenia',
    ['dressing-change-gauze-low-neutrophils'],
    none,
    'no national guideline with an interval by the neutrophil count was found',
    'a gauze dressing every day while the count is below 200/mm3',
    { reads: ['every 1 d', 'labs.anc < 0.2 10*9/L'] },
  ),
];

const looks = ['exit-site', 'incision'] as const;
const newSite: readonly Reading[] = [
  row(
    'post-insertion',
    ['dressing-change-first'],
    'seen',
    'NHS Ayrshire & Arran G004 (adult cancer care)',
    'peripherally inserted and tunneled catheters: full care of the site the day after the insertion, then weekly',
    { states: ['every 1 d', 'until 1 d'], reads: ['at most 1', 'line.dwellDays <= 7'] },
    'as the source says; a regional guideline, and for how long a first change is still asked for is the layer’s own',
  ),
  row(
    'post-insertion',
    ['dressing-change-incision'],
    none,
    'no guideline gives a day on which an incision has healed',
    'cleaned and dressed daily until it has healed',
    { reads: ['every 1 d', 'line.dwellDays <= 21'] },
  ),
  row(
    'post-insertion',
    looks.map((site) => `new-site-response-${site}`),
    none,
    none,
    'pressure on a site that drains much, cold on a swelling, in the first days',
    { reads: ['line.dwellDays <= 3'] },
  ),
  row(
    'post-insertion',
    ['patency-assessment-first'],
    none,
    'pulses: INS, MASCC (from memory)',
    'every lumen of a new line is tested in the first hour',
    { reads: ['at most 1', 'every 1 h', 'line.dwellDays <= 1', 'until 1 h'] },
  ),
  row(
    'post-insertion',
    looks.map((site) => `site-assessment-first-hour-${site}`),
    none,
    none,
    'every 15 minutes four times',
    { reads: ['at most 4', 'every 15 min', 'line.dwellDays <= 1', 'until 1 h'] },
  ),
  row(
    'post-insertion',
    looks.map((site) => `site-assessment-first-day-${site}`),
    none,
    none,
    'then every hour four times',
    { reads: ['at most 8', 'every 1 h', 'line.dwellDays <= 1', 'until 5 h'] },
  ),
  row('post-insertion', ['suture-removal-tunneled'], none, none, 'stitches come out after about 3 weeks', {
    reads: ['at most 1', 'every 21 d', 'until 21 d'],
  }),
];

const sir = 'Society of Interventional Radiology 2019, read in a summary';
const beforeInsertion: readonly Reading[] = [
  row('preparation', ['bath-evening-before-insertion'], none, none, 'a wash the evening before', {
    reads: ['at 20:00:00', 'before 6 h', 'lead 4 h'],
  }),
  row(
    'preparation',
    ['insertion-preparation'],
    memory,
    'CDC-HICPAC 2011 (IB) for the barriers; when has no source',
    'maximal sterile barrier precautions for the insertion of a central line',
    { reads: ['before 1 h', 'lead 3 h'] },
    'the barriers are from memory, the hour is common practice: both said',
  ),
  row(
    'preparation',
    ['laboratory-review-before-insertion'],
    'seen',
    sir,
    'screening is not routine without a risk of bleeding',
    { reads: ['before 24 h', 'lead 6 d'] },
    'results are looked at by common practice; the limits are those of the source, which asks for no routine screening: said',
  ),
  row(
    'preparation',
    ['laboratory-review-limits'],
    'seen',
    sir,
    'low risk: platelets below 20 10*9/L are to be thought of for transfusion, an INR brought to 2.0 to 3.0 or less',
    {
      states: ['labs.inr > 2 1', 'labs.platelets < 20 10*9/L'],
      reads: ['before 48 h', 'lead 5 d'],
    },
    'as the source says, the lower end of its INR; when is the layer’s own',
  ),
  row('preparation', ['planned-insertion'], none, none, 'the insertion that the rest counts back from'),
  row(
    'preparation',
    ['skin-preparation'],
    memory,
    'CDC-HICPAC 2011 (IA, IB) and INS 2021',
    'more than 0.5 % chlorhexidine in alcohol; it dries as its maker says',
    { states: ['before 0 h'], reads: ['lead 1 h'] },
    'from memory; neonates by judgement (ASA 2020, as reported): the caution stands on the work',
  ),
  row('preparation', ['teaching-before-insertion'], none, none, 'told a day before, with time to ask', {
    reads: ['before 24 h', 'lead 14 d'],
  }),
];

const afterRemoval: readonly Reading[] = [
  row(
    'removal',
    ['dressing-change-after-removal'],
    'seen',
    `CDC-HICPAC 2011, dressing regimens, recommendation 3 (seen); ${ins} (from memory)`,
    'replace the dressing if it becomes damp, loosened or visibly soiled; air-occlusive for at least 24 hours',
    { reads: ['line.removedDays <= 1'] },
    'as the sources say; that the two together mean a new one at once is common practice, said so',
  ),
  row(
    'removal',
    ['flat-after-removal'],
    memory,
    `${ins}; Royal Marsden Manual, chapter 17 (seen): flat for about 30 minutes`,
    'flat for 30 minutes after the removal of a central line',
    { states: ['lasts 30 min'] },
    'from memory; a second source that was seen has the same time',
  ),
  row(
    'removal',
    ['getting-up-after-removal'],
    memory,
    `${ins}; Royal Marsden Manual, chapter 17 (seen): flat for about 30 minutes`,
    'flat for 30 minutes after the removal of a central line',
    { states: ['after 30 min'], reads: ['lead 0 min', 'line.removedDays <= 1'] },
    'from memory; that the site is looked at first is common practice, said so',
  ),
  row(
    'removal',
    ['removal'],
    'seen',
    `Royal Marsden Manual, chapter 17; NCHD survival guide; IDSA 2009 (A-II); JVIR 2007; ${ins} (from memory)`,
    'flat or head down, breathing out, air-tight dressing at once, never against resistance; pressure for at least 5 minutes or until dry',
  ),
  row(
    'removal',
    ['removal-after-insertion-without-asepsis'],
    memory,
    'CDC-HICPAC 2011 (IB); AHRQ 2008, chapter 42 (as reported): as soon as possible',
    'where asepsis could not be assured, replace the catheter as soon as possible, within 48 hours',
    { states: ['after 48 h', 'lead 48 h'] },
    'from memory, and due at once with its latest time',
  ),
  row(
    'removal',
    ['removed-catheter-check'],
    memory,
    ins,
    'length and integrity of the tip are recorded at the removal',
    { reads: ['lead 0 min', 'line.removedDays <= 7'] },
    'from memory; the centimetre and the seven days are the layer’s own, said so',
  ),
];

export const unitReading: readonly Reading[] = [
  ...draws,
  ...everyDay,
  ...children,
  ...severe,
  ...newSite,
  ...beforeInsertion,
  ...afterRemoval,
];
