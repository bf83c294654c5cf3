import fc from 'fast-check';

// A run is the same run tomorrow; `DWELLWARD_PROPERTY_SEED=random npm test` looks elsewhere and prints where it failed.
const wanted = process.env['DWELLWARD_PROPERTY_SEED'] ?? '20261125';
if (wanted !== 'random') fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(wanted) });
