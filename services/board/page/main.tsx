import type { BoardLine, BoardRow } from '@dwellward/core';
import { render } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { recordingOf, type Recorded, type Recording } from './acts.js';
import { get, signOut, takeBack, useLive, type Me, type Unit } from './api.js';
import { FiguresPage } from './figures-page.js';
import { LinePage } from './line-page.js';
import { OtherDialog } from './other-dialog.js';
import { RecordDialog } from './record-dialog.js';
import { HandoverPage, SuppliesPage } from './shift-pages.js';
import { TroubleDialog } from './trouble-dialog.js';
import { UnitPage, type Actions } from './unit-page.js';
import { WhyDialog } from './why-dialog.js';
import { words } from './words/english.js';

type Open =
  | { readonly kind: 'record'; readonly lane: BoardLine; readonly recording: Recording }
  | { readonly kind: 'why'; readonly lane: BoardLine; readonly row: BoardRow }
  | { readonly kind: 'trouble' | 'other'; readonly lane: BoardLine };

/** After so long without an answer what is shown is no longer to be relied on, milliseconds. */
const oldMs = 90_000;

const pages = [
  ['#/', words.unitPage],
  ['#/handover', words.handoverPage],
  ['#/supplies', words.suppliesPage],
  ['#/figures', words.figuresPage],
] as const;

function useHash(): string {
  const [hash, setHash] = useState(location.hash || '#/');
  useEffect(() => {
    const changed = () => {
      setHash(location.hash || '#/');
      scrollTo(0, 0);
    };
    addEventListener('hashchange', changed);
    return () => removeEventListener('hashchange', changed);
  }, []);
  return hash;
}

/** Seconds since the last answer, where they are too many. */
function useAge(atMs: number): number | undefined {
  const [nowMs, setNowMs] = useState(Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNowMs(Date.now()), 5_000);
    return () => clearInterval(timer);
  }, []);
  return atMs > 0 && nowMs - atMs > oldMs ? Math.round((nowMs - atMs) / 1000) : undefined;
}

/** A line as it is by now; as it was where it is no longer shown. */
function laneNow({ patients }: Unit, lane: BoardLine): BoardLine {
  return patients.flatMap(({ lines }) => lines).find(({ line }) => line === lane.line) ?? lane;
}

/** Who is before the board; launched from a patient’s record it opens on their line. */
function useMe(unit: Unit | undefined): Me | undefined {
  const [me, setMe] = useState<Me>();
  useEffect(() => {
    get('me').then(setMe, () => setMe(undefined));
  }, []);
  const line = unit?.patients.find(({ patient }) => patient === me?.patient)?.lines[0]?.line;
  useEffect(() => {
    if (line !== undefined && location.hash === '') location.hash = `#/line/${line}`;
  }, [line]);
  return me;
}

function SignedOutPage() {
  return (
    <section aria-labelledby="signed-out">
      <h1 id="signed-out">{words.signedOut}</h1>
      <p>
        <a class="button" href="launch">
          {words.signIn}
        </a>
      </p>
    </section>
  );
}

function Board() {
  const hash = useHash();
  const unit = useLive<Unit>(() => get('unit'), 'unit');
  const me = useMe(unit.value);
  const [open, setOpen] = useState<Open>();
  const [recorded, setRecorded] = useState<Recorded>();
  const [told, setTold] = useState('');
  const age = useAge(unit.atMs);
  const actions = useMemo<Actions>(
    () => ({
      onRecord: (lane, row) => setOpen({ kind: 'record', lane, recording: recordingOf(row, true) }),
      onWhy: (lane, row) => setOpen({ kind: 'why', lane, row }),
      onTrouble: (lane) => setOpen({ kind: 'trouble', lane }),
      onOther: (lane) => setOpen({ kind: 'other', lane }),
    }),
    [],
  );
  const close = () => setOpen(undefined);
  const onRecorded = (done: Recorded) => {
    setOpen(undefined);
    setRecorded(done);
    setTold([words.recorded(done.text, done.at), ...(done.shown ? [] : [words.notShownYet])].join(' '));
    unit.again();
  };
  const undo = async ({ line, ids, text }: Recorded) => {
    const ended = await Promise.allSettled(ids.map((id) => takeBack(line, id)));
    const failed = ended.flatMap((one) => (one.status === 'rejected' ? [one.reason as unknown] : []));
    const notShown = ended.some((one) => one.status === 'fulfilled' && !one.value);
    if (failed.length === 0) setRecorded(undefined);
    // What was taken back and is asked for again is taken back: only what stands can be tried once more.
    else
      setRecorded({
        line,
        text,
        ids: ids.filter((_, at) => ended[at]?.status === 'rejected'),
        at: '',
        shown: true,
      });
    const [problem] = failed;
    setTold(
      failed.length === 0
        ? [words.undone(text), ...(notShown ? [words.notShownYet] : [])].join(' ')
        : `${words.notUndone(failed.length, ids.length)} ${problem instanceof Error ? problem.message : ''}`,
    );
    unit.again();
  };
  const line = hash.startsWith('#/line/') ? decodeURIComponent(hash.slice('#/line/'.length)) : undefined;
  useEffect(() => {
    const name = pages.find(([to]) => to === hash)?.[1] ?? words.line;
    document.title = `${name}: ${words.title}`;
  }, [hash]);
  return (
    <>
      <header class="page-head">
        <a
          class="skip"
          href="#list"
          onClick={(event) => {
            event.preventDefault();
            document.getElementById('list')?.focus();
          }}
        >
          {words.skip}
        </a>
        <nav aria-label={words.pages}>
          {pages.map(([to, name]) => (
            <a key={to} href={to} aria-current={hash === to ? 'page' : undefined}>
              {name}
            </a>
          ))}
        </nav>
        {me?.signsIn && !unit.signedOut && (
          <button
            type="button"
            onClick={() => {
              setOpen(undefined);
              void signOut().then(unit.again);
            }}
          >
            {words.signOut}
          </button>
        )}
        <p class="alarm" role="status">
          {(unit.value?.counts.emergencies ?? 0) > 0 && (
            <a href="#/">{words.alarm(unit.value?.counts.emergencies ?? 0)}</a>
          )}
        </p>
      </header>
      {age !== undefined && (
        <p class="too-old" role="alert">
          {words.noAnswer(age)}
        </p>
      )}
      <main>
        {unit.signedOut ? (
          <SignedOutPage />
        ) : line !== undefined ? (
          <LinePage line={line} unit={unit} actions={actions} />
        ) : hash === '#/handover' ? (
          <HandoverPage />
        ) : hash === '#/supplies' ? (
          <SuppliesPage />
        ) : hash === '#/figures' ? (
          <FiguresPage />
        ) : (
          <UnitPage live={unit} actions={actions} />
        )}
      </main>
      <div class="told" role="status">
        {told && (
          <p>
            {told}{' '}
            {recorded && (
              <button type="button" onClick={() => void undo(recorded)}>
                {words.undo}
              </button>
            )}
            <button
              type="button"
              onClick={() => {
                setTold('');
                setRecorded(undefined);
              }}
            >
              {words.close}
            </button>
          </p>
        )}
      </div>
      {open?.kind === 'record' && unit.value && (
        <RecordDialog
          lane={laneNow(unit.value, open.lane)}
          recording={open.recording}
          now={unit.value.at}
          zone={unit.value.zone}
          onClose={close}
          onRecorded={onRecorded}
        />
      )}
      {open?.kind === 'other' && unit.value && (
        <OtherDialog
          lane={open.lane}
          now={unit.value.at}
          zone={unit.value.zone}
          onClose={close}
          onRecorded={onRecorded}
        />
      )}
      {open?.kind === 'why' && <WhyDialog lane={open.lane} row={open.row} onClose={close} />}
      {open?.kind === 'trouble' && <TroubleDialog lane={open.lane} onClose={close} onRecorded={onRecorded} />}
    </>
  );
}

const root = document.getElementById('board');
if (root) render(<Board />, root);
