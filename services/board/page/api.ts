import type { LineView, OtherCare, TroubleSteps, UnitView } from '@dwellward/core';
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';

/** The unit, and why it may not be the whole of it. */
export type Unit = UnitView & { readonly doubts: readonly string[] };

export interface Supplies {
  readonly counts: readonly { readonly text: string; readonly count: number }[];
  readonly syringes: readonly { readonly sizeMl: string; readonly count: number }[];
  readonly flushMl: string;
  readonly lockMl: string;
  readonly notWorkedOut: readonly string[];
}

export interface HandoverAnswer {
  readonly text: string;
  readonly supplies: Supplies;
  readonly patients: readonly {
    readonly patient: string;
    readonly name: string;
    readonly bed?: string;
    readonly supplies: Supplies;
  }[];
  readonly cautions: readonly string[];
}

export interface FiguresView {
  readonly title: string;
  readonly tables: readonly {
    readonly heading: string;
    readonly head: readonly string[];
    readonly rows: readonly (readonly string[])[];
    readonly notes: readonly string[];
  }[];
  readonly charts: readonly { readonly title: string; readonly description: string; readonly svg: string }[];
  readonly proposals: readonly { readonly text: string; readonly because: readonly string[] }[];
  readonly leftOutText: string;
  readonly leftOut: readonly string[];
  readonly cautions: readonly string[];
}

export interface PastWindows {
  readonly from: string;
  readonly windows: readonly {
    readonly opens: string;
    readonly dueBy: string;
    readonly outcome: 'on-time' | 'late' | 'missed' | 'held';
    readonly text: string;
  }[];
}

/** Who is before the board. */
export interface Me {
  readonly signsIn: boolean;
  /** Whose record it was launched from. */
  readonly patient?: string;
}

/** What the paths answer. */
interface Answers {
  readonly me: Me;
  readonly unit: Unit;
  readonly line: LineView;
  readonly 'other-care': OtherCare;
  readonly windows: PastWindows;
  readonly 'first-steps': { readonly troubles: readonly TroubleSteps[] };
  readonly handover: HandoverAnswer;
  readonly draw: { readonly text: string };
  readonly figures: { readonly figures: FiguresView | null };
  readonly 'draw-tests': { readonly tests: readonly string[] };
  readonly repair: { readonly text: string };
}

/** What the service says that can’t be done. */
export class Refused extends Error {
  readonly problems: readonly string[];
  constructor(problems: readonly string[]) {
    super(problems.join(' '));
    this.problems = problems;
  }
}

/** Nobody is signed in, or not any more. */
export class SignedOut extends Refused {}

export async function get<Path extends keyof Answers>(
  path: Path,
  query: Readonly<Record<string, string>> = {},
): Promise<Answers[Path]> {
  const text = new URLSearchParams(query).toString();
  const response = await fetch(`api/${path}${text ? `?${text}` : ''}`, {
    headers: { accept: 'application/json' },
  });
  if (!response.ok) throw await refusalOf(response);
  return (await response.json()) as Answers[Path];
}

async function refusalOf(response: Response): Promise<Refused> {
  const body = (await response.json().catch(() => ({}))) as { problems?: readonly string[] };
  const problems = body.problems ?? [`${response.status}`];
  return response.status === 401 ? new SignedOut(problems) : new Refused(problems);
}

/** A finding as it is charted with an act. */
export interface ChartedFinding {
  readonly finding: string;
  readonly value?: string;
  readonly flag?: boolean;
  readonly quantity?: string;
}

export interface Act {
  readonly id: string;
  readonly line: string;
  readonly lumen?: string;
  readonly activity?: string;
  readonly findings?: readonly ChartedFinding[];
  readonly at?: string;
  readonly by?: string;
  readonly putOn?: string;
  readonly note?: string;
}

export interface Question {
  readonly code: string;
  readonly refused: boolean;
  readonly text: string;
}

/** What became of an act: it is on record, or there are questions to answer first. */
export interface ChartAnswer {
  readonly questions: readonly Question[];
  /** False where it is on record, and what follows from it is not worked out yet. */
  readonly shown: boolean;
}

export async function chart(act: Act, confirmed: readonly string[]): Promise<ChartAnswer> {
  const response = await post('charted', { ...act, confirmed });
  if (response.status === 409)
    return {
      questions: ((await response.json()) as { questions: readonly Question[] }).questions,
      shown: true,
    };
  return { questions: [], shown: await shownIn(response) };
}

/** @returns false where what follows from it is not worked out yet. */
export async function takeBack(line: string, id: string): Promise<boolean> {
  return shownIn(await post('taken-back', { line, id }));
}

async function shownIn(response: Response): Promise<boolean> {
  if (!response.ok) throw await refusalOf(response);
  return ((await response.json()) as { shown: boolean }).shown;
}

export async function signOut(): Promise<void> {
  await post('sign-out', {});
}

function post(path: string, body: unknown): Promise<Response> {
  return fetch(`api/${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}

/** How often everything is asked for anew though nothing was charted: windows pass by themselves. */
const everyMs = 30_000;
/** So many changes as come at once are one look. */
const settleMs = 150;

export interface Live<Value> {
  readonly value: Value | undefined;
  readonly problem: string | undefined;
  /** True where the service says that nobody is signed in. */
  readonly signedOut: boolean;
  /** When the value came, by this machine’s clock. */
  readonly atMs: number;
  readonly again: () => void;
}

/** An answer that is asked for again whenever the record changes, and every half minute. */
export function useLive<Value>(ask: () => Promise<Value>, key: string): Live<Value> {
  const [state, setState] = useState<Omit<Live<Value>, 'again'>>({
    value: undefined,
    problem: undefined,
    signedOut: false,
    atMs: 0,
  });
  const asking = useRef(ask);
  asking.current = ask;
  const again = useCallback(() => {
    asking.current().then(
      (value) => setState({ value, problem: undefined, signedOut: false, atMs: Date.now() }),
      (error: unknown) =>
        setState((before) => ({
          ...before,
          // What was shown is not for whoever comes next.
          ...(error instanceof SignedOut ? { value: undefined } : {}),
          signedOut: error instanceof SignedOut,
          problem: error instanceof Error ? error.message : String(error),
        })),
    );
  }, []);
  useEffect(() => {
    setState({ value: undefined, problem: undefined, signedOut: false, atMs: 0 });
    again();
    const timer = setInterval(again, everyMs);
    const changes = new EventSource('api/changes');
    let waiting: ReturnType<typeof setTimeout> | undefined;
    const changed = () => {
      clearTimeout(waiting);
      waiting = setTimeout(again, settleMs);
    };
    changes.addEventListener('changed', changed);
    // After a break nobody knows what was missed.
    changes.addEventListener('open', changed);
    return () => {
      clearInterval(timer);
      clearTimeout(waiting);
      changes.close();
    };
  }, [key, again]);
  return { ...state, again };
}
