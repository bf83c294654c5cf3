import type { BoardPatient, BoardRow, BoardShift } from '@dwellward/core';
import { words } from './words/english.js';

export interface Filter {
  readonly text: string;
  readonly urgency: 'every' | 'emergencies' | 'urgent' | 'overdue';
  readonly onlyOpen: boolean;
  /** What is due after this is left out; empty for none. */
  readonly until: string;
}

export const everything: Filter = { text: '', urgency: 'every', onlyOpen: false, until: '' };

const urgencies: Readonly<Record<Filter['urgency'], (row: BoardRow) => boolean>> = {
  every: () => true,
  emergencies: ({ emergency }) => emergency,
  urgent: ({ priority }) => priority !== 'routine',
  overdue: ({ state }) => state === 'overdue',
};

/** Whether a row passes. Emergencies always do: a filter hides none of them. */
export function passes(
  row: BoardRow,
  patient: BoardPatient,
  { text, urgency, onlyOpen, until }: Filter,
): boolean {
  if (row.emergency && row.state !== 'upcoming') return true;
  if (!urgencies[urgency](row)) return false;
  if (onlyOpen && row.state !== 'due' && row.state !== 'overdue') return false;
  if (until !== '' && Date.parse(row.dueBy) >= Date.parse(until)) return false;
  const wanted = text.trim().toLowerCase();
  if (wanted === '') return true;
  return searchedIn(row, patient).some((one) => one.includes(wanted));
}

const searched = new WeakMap<BoardRow, readonly string[]>();

/** What a row is found by, made once: it is looked through with every letter. */
function searchedIn(row: BoardRow, { name, bed, unit }: BoardPatient): readonly string[] {
  const known = searched.get(row);
  if (known) return known;
  const made = [name, bed ?? '', unit ?? '', row.text].map((one) => one.toLowerCase());
  searched.set(row, made);
  return made;
}

/** The same object where nothing is filtered, so that the whole list is known by it. */
export function settled(filter: Filter): Filter {
  const nothing =
    filter.text.trim() === '' && filter.urgency === 'every' && !filter.onlyOpen && !filter.until;
  return nothing ? everything : filter;
}

export function Filters({
  filter,
  onFilter,
  shifts,
}: {
  filter: Filter;
  onFilter: (filter: Filter) => void;
  shifts: readonly BoardShift[];
}) {
  const running = shifts.findIndex(({ runs }) => runs);
  const change = (changed: Partial<Filter>) => onFilter(settled({ ...filter, ...changed }));
  return (
    <form
      class="filters"
      role="search"
      aria-label={words.filter}
      onSubmit={(event) => event.preventDefault()}
    >
      <label>
        {words.filterText}
        <input
          type="search"
          value={filter.text}
          onInput={(event) => change({ text: event.currentTarget.value })}
        />
      </label>
      <label>
        {words.urgency}
        <select
          value={filter.urgency}
          onChange={(event) => change({ urgency: event.currentTarget.value as Filter['urgency'] })}
        >
          <option value="every">{words.every}</option>
          <option value="emergencies">{words.emergencies}</option>
          <option value="urgent">{words.urgent}</option>
          <option value="overdue">{words.overdueOnly}</option>
        </select>
      </label>
      <label>
        {words.dueIn}
        <select value={filter.until} onChange={(event) => change({ until: event.currentTarget.value })}>
          <option value="">{words.every}</option>
          {shifts
            .slice(running, running + 2)
            .filter(() => running >= 0)
            .map(({ until }, at) => (
              <option key={until} value={until}>
                {at === 0 ? words.thisShift : words.nextShiftToo}
              </option>
            ))}
        </select>
      </label>
      <label class="check">
        <input
          type="checkbox"
          checked={filter.onlyOpen}
          onChange={(event) => change({ onlyOpen: event.currentTarget.checked })}
        />
        {words.onlyOpen}
      </label>
    </form>
  );
}
