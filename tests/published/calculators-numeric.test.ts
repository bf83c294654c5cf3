// Cylinder volumes, flows and pressures against decimal.js, an independent numeric library, which also computes π.
import { lumenVolume, poiseuilleFlow, segmentAirVolume, syringePressure } from '@dwellward/calculators';
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const D = Decimal.clone({ precision: 60 });
const pi = D.acos(-1);

const thousandths = (min: number, max: number) =>
  fc.integer({ min, max }).map((value) => new D(value).div(1000).toString());

/** m³ from SI metres, with no factor shared with the package. */
const cylinder = (diameterM: Decimal, lengthM: Decimal): Decimal =>
  pi.times(diameterM.div(2).pow(2)).times(lengthM);

describe('the volume of a lumen', () => {
  it('is the cylinder’s, rounded once in the direction asked for', () => {
    const modes = { nearest: D.ROUND_HALF_UP, up: D.ROUND_UP, down: D.ROUND_DOWN } as const;
    fc.assert(
      fc.property(
        thousandths(100, 10_000),
        thousandths(100, 200_000),
        fc.constantFrom('nearest', 'up', 'down'),
        (innerDiameterMm, lengthCm, rounding) => {
          const litres = cylinder(new D(innerDiameterMm).div(1000), new D(lengthCm).div(100)).times(1000);
          const expected = litres.times(1000).toDecimalPlaces(3, modes[rounding]).toString();
          expect(lumenVolume({ innerDiameterMm, lengthCm, rounding }).value).toBe(expected);
        },
      ),
    );
  });
  it('of a repair segment is the same, up to 0.01 mL', () => {
    fc.assert(
      fc.property(thousandths(100, 10_000), thousandths(100, 60_000), (innerDiameterMm, lengthCm) => {
        const mL = cylinder(new D(innerDiameterMm).div(1000), new D(lengthCm).div(100)).times(1e6);
        const expected = mL.toDecimalPlaces(2, D.ROUND_UP).toString();
        expect(segmentAirVolume({ innerDiameterMm, lengthCm }).value).toBe(expected);
      }),
    );
  });
});

describe('flow', () => {
  it('is the integral of the parabolic velocity profile, down to 0.1 mL/min', () => {
    fc.assert(
      fc.property(
        thousandths(100, 5000),
        thousandths(100, 200_000),
        thousandths(0, 300_000),
        thousandths(200, 20_000),
        (innerDiameterMm, lengthCm, pressure, viscosityMPaS) => {
          const radius = new D(innerDiameterMm).div(2000);
          // v(r) = ΔP (R² − r²) / (4 µ L); ∫ v 2πr dr from 0 to R = 2π · ΔP/(4 µ L) · (R⁴/2 − R⁴/4).
          const gradient = new D(pressure)
            .times(1000)
            .div(new D(viscosityMPaS).div(1000))
            .div(new D(lengthCm).div(100));
          const fourth = radius.pow(4);
          const perSecond = pi
            .times(2)
            .times(gradient)
            .div(4)
            .times(fourth.div(2).minus(fourth.div(4)));
          const expected = perSecond.times(6e7).toDecimalPlaces(1, D.ROUND_DOWN).toString();
          const ours = poiseuilleFlow({
            innerDiameterMm,
            lengthCm,
            pressure,
            pressureUnit: 'kPa',
            viscosityMPaS,
          });
          expect(ours.value).toBe(expected);
        },
      ),
    );
  });
  it('has the Reynolds number of mean velocity, diameter, density and viscosity, rounded up', () => {
    fc.assert(
      fc.property(
        thousandths(500, 3000),
        thousandths(10_000, 100_000),
        thousandths(1, 300_000),
        thousandths(500, 5000),
        thousandths(900, 1200),
        (innerDiameterMm, lengthCm, pressure, viscosityMPaS, densityKgPerL) => {
          const d = new D(innerDiameterMm).div(1000);
          const mu = new D(viscosityMPaS).div(1000);
          const dp = new D(pressure).times(1000);
          const velocity = dp.times(d.pow(2)).div(mu.times(32).times(new D(lengthCm).div(100)));
          const reynolds = velocity.times(d).times(new D(densityKgPerL).times(1000)).div(mu);
          const ours = poiseuilleFlow({
            innerDiameterMm,
            lengthCm,
            pressure,
            pressureUnit: 'kPa',
            viscosityMPaS,
            densityKgPerL,
          });
          expect(ours.reynoldsNumber).toBe(reynolds.toDecimalPlaces(0, D.ROUND_UP).toFixed());
          expect(ours.laminar).toBe(reynolds.toDecimalPlaces(0, D.ROUND_UP).lte(2000));
        },
      ),
    );
  });
});

describe('the pressure in a syringe', () => {
  it('is force by cross-section, up to 0.1 kPa', () => {
    fc.assert(
      fc.property(thousandths(0, 500_000), thousandths(2000, 60_000), (forceN, barrelDiameterMm) => {
        const area = pi.times(new D(barrelDiameterMm).div(2000).pow(2));
        const expected = new D(forceN).div(area).div(1000).toDecimalPlaces(1, D.ROUND_UP).toString();
        expect(syringePressure({ forceN, barrelDiameterMm }).value).toBe(expected);
      }),
    );
  });
});
