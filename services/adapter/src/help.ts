import { variables } from './config.js';

/** What `--help` prints: examples first, then every setting. */
export function helpText(): string {
  const settings = Object.entries(variables).map(([name, { help, allowed, preset, optional }]) => {
    const absent = preset === undefined ? (optional ? 'optional' : 'required') : `${preset} when absent`;
    return `  ${name} (${absent})\n      ${help}\n      Allowed: ${allowed}.`;
  });
  return `dwellward-adapter: keeps the Tasks on a FHIR R4 server in step with the care that central venous lines need.

It advises and never orders. Local policy, the device’s and the drug’s own instructions and the licensed clinician
come first.

Examples
  Once over a FHIR server, then end:
    DWELLWARD_FHIR_URL=https://fhir.example/r4 DWELLWARD_ZONE=Europe/Berlin dwellward-adapter --once
  Before that, what the server can, and what would be written:
    DWELLWARD_FHIR_URL=https://fhir.example/r4 DWELLWARD_ZONE=Europe/Berlin dwellward-adapter --check
    DWELLWARD_FHIR_URL=https://fhir.example/r4 DWELLWARD_ZONE=Europe/Berlin dwellward-adapter --dry-run
  As a service, with a unit’s own layer over the bundled base:
    DWELLWARD_FHIR_URL=https://fhir.example/r4 DWELLWARD_ZONE=Europe/Berlin \\
    DWELLWARD_POLICY=neutropenia,unit.json dwellward-adapter

Options
  --once     one round over all patients with lines, then end
  --dry-run  the same, telling what would be written, and writing nothing
  --check    tries what the server can, before the first write, and writes nothing
  --help     this text

Exit codes
  0  done, or stopped by a signal
  1  a round failed, or a patient could not be brought in step or has closings held back (--once, --dry-run);
     the server lacks what is needed (--check)
  2  an option or a setting can’t be used, or the server must not be worked with: another FHIR version, clocks apart
  3  done, but nobody with a line was found (--once)

Settings (environment variables)
${settings.join('\n')}
`;
}
