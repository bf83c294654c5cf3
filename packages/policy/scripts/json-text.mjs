// How the JSON of the plans is written, so that a diff shows what changed and no more.
const order = [
  ...['resourceType', 'id', 'meta', 'contained', 'extension', 'modifierExtension', 'url', 'version', 'name'],
  ...['prefix', 'title', 'type', 'status', 'experimental', 'date', 'publisher', 'description', 'usage'],
  ...['purpose', 'effectivePeriod', 'topic', 'relatedArtifact', 'priority', 'kind', 'intent', 'doNotPerform'],
  ...['system', 'code', 'documentation', 'trigger', 'condition', 'relatedAction', 'timingDuration'],
  ...['timingTiming', 'participant', 'definitionCanonical', 'action'],
  ...['label', 'display', 'citation', 'language', 'expression', 'value', 'unit'],
];
const place = new Map(order.map((key, index) => [key, index]));
const placeOf = (key) => place.get(key) ?? order.length;
const width = 120;

/** A plan or an ActivityDefinition with its elements in the order of R4; of another resource the order is kept. */
export function inR4Order(resource) {
  return ['PlanDefinition', 'ActivityDefinition'].includes(resource.resourceType)
    ? sorted(resource)
    : resource;
}

function sorted(value) {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .map(([key, member]) => [key, sorted(member)])
      .sort(([a], [b]) => placeOf(a) - placeOf(b)),
  );
}

/** JSON with what fits into a line on one line. */
export function jsonText(value) {
  return `${textOf(value, '', 0)}\n`;
}

function textOf(value, indent, used) {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const line = oneLine(value);
  if (indent.length + used + line.length <= width) return line;
  const inner = `${indent}  `;
  if (!Array.isArray(value)) {
    const members = Object.entries(value).map(([key, member]) => {
      const name = `${JSON.stringify(key)}: `;
      return `${inner}${name}${textOf(member, inner, name.length + 1)}`;
    });
    return `{\n${members.join(',\n')}\n${indent}}`;
  }
  // A list of one is no list to read through.
  if (value.length === 1) return `[${textOf(value[0], indent, used + 2)}]`;
  return `[\n${value.map((one) => `${inner}${textOf(one, inner, 1)}`).join(',\n')}\n${indent}]`;
}

function oneLine(value) {
  if (Array.isArray(value)) return `[${value.map(oneLine).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const members = Object.entries(value).map(([key, member]) => `${JSON.stringify(key)}: ${oneLine(member)}`);
  return `{ ${members.join(', ')} }`;
}
