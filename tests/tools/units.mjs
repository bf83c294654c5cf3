// Volumes, flows and pressures against mathjs: the formulas are written here once more, with units carried by the
// library, so that a wrong factor between mm, cm, mL, kPa and minutes can't hide.
import { all, create } from 'mathjs';
import { load } from '../../packages/calculators/scripts/calculators.mjs';

const { lumenVolume, poiseuilleFlow, pressureInKpa, segmentAirVolume, syringePressure } =
  await load(`export * from './index.js';`);

const math = create(all, { number: 'number', randomSeed: 'dwellward' });
const pick = (least, most) => Number((least + math.random() * (most - least)).toFixed(3));
let compared = 0;

function close(what, ours, theirs, step) {
  compared += 1;
  if (Math.abs(Number(ours) - theirs) <= step + theirs * 1e-12) return;
  console.log(`${what}: ${ours}, mathjs ${theirs}`);
  process.exitCode = 1;
}

for (let round = 0; round < 300; round += 1) {
  const d = pick(0.2, 5);
  const l = pick(1, 100);
  const volume = math.evaluate(`number(pi * (${d} mm)^2 / 4 * ${l} cm, mL)`);
  close(`volume ${d} mm ${l} cm`, lumenVolume({ innerDiameterMm: d, lengthCm: l }).value, volume, 0.0005);
  if (l <= 60)
    close('air', segmentAirVolume({ innerDiameterMm: d, lengthCm: l }).value, volume + 0.005, 0.005);

  const p = pick(1, 200);
  const mu = pick(0.5, 5);
  const flow = math.evaluate(
    `number(pi * ${p} kPa * (${d} mm / 2)^4 / (8 * ${mu} mPa s * ${l} cm), mL/minute)`,
  );
  const ours = poiseuilleFlow({
    innerDiameterMm: d,
    lengthCm: l,
    pressure: p,
    pressureUnit: 'kPa',
    viscosityMPaS: mu,
  });
  close(`flow ${d} mm ${l} cm ${p} kPa ${mu} mPa.s`, ours.value, flow - 0.05, 0.05);
  const inertia = math.evaluate(`number(4 * 1 kg/L * ${flow} mL/minute / (pi * ${d} mm), mPa s)`);
  close('Reynolds number', ours.reynoldsNumber, inertia / mu + 0.5, 0.5);

  const force = pick(1, 100);
  const pressure = math.evaluate(`number(${force} N / (pi * (${d + 5} mm)^2 / 4), kPa)`);
  const syringe = syringePressure({ forceN: force, barrelDiameterMm: d + 5 });
  close('syringe', syringe.value, pressure + 0.05, 0.05);

  for (const [unit, theirs] of [
    ['[psi]', 'psi'],
    ['mm[Hg]', 'mmHg'],
    ['cm[H2O]', 'cmH2O'],
    ['bar', 'bar'],
  ]) {
    const inKPa = math.evaluate(`number(${p} ${theirs}, kPa)`);
    // mathjs and UCUM define the millimetre of mercury a few millionths apart.
    close(unit, pressureInKpa({ pressure: p, pressureUnit: unit }).value, inKPa, 0.001 + inKPa * 1e-5);
  }
}
console.log(`${compared} comparisons${process.exitCode === 1 ? ', some differ' : ', all agree'}`);
