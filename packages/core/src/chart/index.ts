export { chartedBundle } from './charted-bundle.js';
export { firstStepsOf, type TroubleSteps } from './first-steps.js';
export type * from './model.js';
export { chartQuestions } from './questions.js';
