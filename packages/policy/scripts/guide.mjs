// Makes the guide in reports/guide of the profiles, the plans and the typed tables: pages of plain HTML, readable without a
// script, by keyboard and by screen reader. `npm run docs` does it.
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { codeSystems } from '@dwellward/profiles';
import { factKind, factNames, factSubject } from '@dwellward/policy';
import ts from 'typescript';

const packages = join(dirname(fileURLToPath(import.meta.url)), '../..');
const out = join(packages, '../reports/guide');
const base = 'https://dwellward.example/fhir/';

const escaped = (text) =>
  String(text).replace(
    /[&<>"]/g,
    (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign],
  );
const code = (text) => `<code>${escaped(text)}</code>`;

function table(caption, heads, rows) {
  const head = heads.map((one) => `<th scope="col">${escaped(one)}</th>`).join('');
  const body = rows.map(
    ([first, ...rest]) =>
      `<tr><th scope="row">${first}</th>${rest.map((one) => `<td>${one}</td>`).join('')}</tr>`,
  );
  return `<table><caption>${escaped(caption)}</caption><thead><tr>${head}</tr></thead><tbody>${body.join('\n')}</tbody></table>`;
}

const style = `body{font:1rem/1.5 system-ui,sans-serif;max-width:70rem;margin:1rem auto;padding:0 1rem;color:#111;background:#fff}
table{border-collapse:collapse;margin:1rem 0;width:100%}caption{text-align:left;font-weight:600;padding:.3rem 0}
th,td{border:1px solid #767676;padding:.3rem .5rem;text-align:left;vertical-align:top;overflow-wrap:anywhere}
th[scope=row]{font-weight:500}nav a{margin-right:1rem}a:focus{outline:3px solid #1a4fa3}
@media(prefers-color-scheme:dark){body{color:#eee;background:#111}a{color:#9cc4ff}}`;

const pages = new Map();
function page(file, title, ...parts) {
  pages.set(file, { title, body: parts.join('\n') });
}

function whole({ title, body }) {
  const links = [...pages].map(([file, one]) => `<a href="${file}">${escaped(one.title)}</a>`).join(' ');
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1"><title>${escaped(title)} · Dwellward</title><style>${style}</style></head><body><a href="#main">To the text</a><nav aria-label="Pages">${links}</nav><main id="main"><h1>${escaped(title)}</h1>${body}</main></body></html>\n`;
}

const resourcesOf = (folder) =>
  readdirSync(join(packages, folder, 'resources'))
    .sort()
    .map((name) => JSON.parse(readFileSync(join(packages, folder, 'resources', name), 'utf8')));
const profiles = resourcesOf('profiles').filter(({ resourceType }) => resourceType === 'StructureDefinition');
const policies = resourcesOf('policy');
const short = (url) => (url ?? '').replace(base, '').replace('http://hl7.org/fhir/', '');

/** What a profile says of its elements that the resource of R4 does not. */
function profileTable({ id, differential }) {
  const rows = differential.element
    .filter(({ path }) => path.includes('.'))
    .map((element) => {
      const { min, max, mustSupport, binding, type = [], short: says } = element;
      const targets = type.flatMap(({ code: of, targetProfile = [] }) =>
        targetProfile.length > 0 ? targetProfile.map(short) : [of],
      );
      const fixed = Object.entries(element).find(([key]) => /^(fixed|pattern)/.test(key))?.[1];
      const bound = binding?.valueSet ? `${binding.strength}: ${short(binding.valueSet)}` : '';
      return [
        code(element.id),
        min === undefined && max === undefined ? '' : `${min ?? ''}..${max ?? ''}`,
        mustSupport ? 'yes' : '',
        escaped(
          [targets.join(', '), bound, fixed === undefined ? '' : JSON.stringify(fixed)]
            .filter(Boolean)
            .join('; '),
        ),
        escaped(says ?? ''),
      ];
    });
  return rows.length === 0
    ? ''
    : table(`Elements of ${id}`, ['Element', 'How often', 'Looked at', 'What it may be', 'In words'], rows);
}

function profilePages() {
  const written = new Set(['Task', 'Flag', 'DetectedIssue', 'Provenance']);
  const part = (list) =>
    list.map(
      (one) =>
        `<section><h2 id="${one.id}">${escaped(one.title)} (${escaped(one.type)})</h2><p>${escaped(one.description)}</p>${profileTable(one)}</section>`,
    );
  const ofResources = profiles.filter(({ type }) => type !== 'Extension');
  page(
    'read.html',
    'What is read',
    '<p>A record that looks like this is understood without a map of codes. Elements that no row names are read as R4 says, or not at all; what was given of a line and not understood is listed by every output.</p>',
    ...part(ofResources.filter(({ type }) => !written.has(type))),
  );
  page('written.html', 'What is written', ...part(ofResources.filter(({ type }) => written.has(type))));
  const extensions = [...profiles, ...policies].filter(
    ({ resourceType, type }) => resourceType === 'StructureDefinition' && type === 'Extension',
  );
  page(
    'extensions.html',
    'Extensions',
    table(
      'Extensions, of plans and of what is written',
      ['Name', 'Stands in', 'Says'],
      extensions.map(({ id, context = [], description }) => [
        code(id),
        escaped(context.map(({ expression }) => expression).join(', ')),
        escaped(description),
      ]),
    ),
  );
}

function codePage() {
  page(
    'codes.html',
    'Codes',
    ...codeSystems().map(({ id, title, url, concept = [] }) =>
      concept.length === 0
        ? `<h2 id="${id}">${escaped(title)}</h2><p>${code(url)}: the texts of the hospital, as they are written.</p>`
        : `<h2 id="${id}">${escaped(title)}</h2><p>${code(url)}</p>${table(
            title,
            ['Code', 'Display', 'Means'],
            concept.map((one) => [code(one.code), escaped(one.display), escaped(one.definition ?? '')]),
          )}`,
    ),
  );
}

/** What the sources say of the facts whose names stand fixed. */
function saidOfFacts() {
  const file = join(packages, 'policy/src/facts.ts');
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true);
  const said = new Map();
  source.forEachChild((node) => {
    if (!ts.isInterfaceDeclaration(node) || node.name.text !== 'StaticFacts') return;
    for (const member of node.members) {
      const comment = ts
        .getJSDocCommentsAndTags(member)
        .map((one) => ts.getTextOfJSDocComment(one.comment) ?? '');
      said.set(member.name.text, comment.join(' ').replace(/\s+/g, ' '));
    }
  });
  return said;
}

function factPage() {
  const said = saidOfFacts();
  const kindOf = (name) => {
    const kind = factKind(name);
    return kind.kind === 'quantity'
      ? `quantity in ${kind.unit}`
      : kind.kind === 'code'
        ? `code: ${kind.codes.join(', ')}`
        : kind.kind;
  };
  const of = (name) => {
    const subject = factSubject(name);
    if (subject?.group === 'last') return `When ${subject.activity} was last done.`;
    if (subject?.group === 'found')
      return `When ${subject.finding} was last found${subject.value === undefined ? ', with any value' : ` as ${subject.value}`}.`;
    if (subject?.group === 'latest') return `The latest charted value of ${subject.finding}.`;
    return (
      said.get(name) ??
      { began: 'When what began the rule occurred.', answered: 'When what began the rule was put right.' }[
        name
      ] ??
      ''
    );
  };
  page(
    'facts.html',
    'Facts that a condition may ask about',
    '<p>A fact that is absent is not known, never false. Each is read from the record by core; a condition names it behind %.</p>',
    table(
      'Facts',
      ['Name', 'Kind', 'Says'],
      factNames.map((name) => [code(`%${name}`), escaped(kindOf(name)), escaped(of(name))]),
    ),
  );
}

function planPage() {
  const plans = policies.filter(({ resourceType }) => resourceType === 'PlanDefinition');
  page(
    'plans.html',
    'Bundled plans',
    table(
      'Plans',
      ['Name', 'Title', 'What it is for', 'Rules'],
      plans.map(({ id, title, description, action = [] }) => [
        code(id),
        escaped(title),
        escaped(description ?? ''),
        escaped(
          action
            .flatMap((one) => [one, ...(one.action ?? [])])
            .flatMap(({ id: of }) => of ?? [])
            .join(', '),
        ),
      ]),
    ),
  );
}

page(
  'index.html',
  'Guide',
  '<p>How a record is read, what is written, every code, every fact and every bundled plan: made from the profiles, the plans and the tables of the sources. How to map a hospital’s own codes, how to own a policy and how to run the adapter is told in docs/.</p>',
);
profilePages();
codePage();
factPage();
planPage();
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
for (const [file, one] of pages) writeFileSync(join(out, file), whole(one));
console.log(`${pages.size} pages of the guide in ${relative(process.cwd(), out)}.`);
