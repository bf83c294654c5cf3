import {
  bloodDraw,
  Calendar,
  CoreError,
  drawTests,
  english,
  firstStepsOf,
  lineView,
  otherCare,
  renderDraw,
  renderRepair,
  repairJudgement,
  speaker,
} from '@dwellward/core';
import express, { type Request, type Response, type Router } from 'express';
import type { LineOfUnit, ShownUnit } from './unit.js';
import { pastWindows } from './windows.js';

/** What is asked of one line. */
export function lineRoutes(unit: ShownUnit): Router {
  const api = express.Router();
  api.get(
    '/line',
    ofLine(unit, ({ records, care }, _request, response) => {
      response.json(lineView(records, care, unit.policy, unit.when));
    }),
  );
  api.get(
    '/windows',
    ofLine(unit, ({ records, line }, _request, response) => {
      response.json(pastWindows(records, line, unit.policy, unit.when));
    }),
  );
  api.get(
    '/other-care',
    ofLine(unit, ({ line }, _request, response) => {
      response.json(otherCare(line));
    }),
  );
  api.get(
    '/first-steps',
    ofLine(unit, ({ line }, { query }, response) => {
      const lumen = typeof query['lumen'] === 'string' ? query['lumen'] : undefined;
      response.json({ troubles: firstStepsOf(line, unit.policy, unit.when, lumen) });
    }),
  );
  api.get(
    '/draw',
    ofLine(unit, ({ line }, request, response) => drawOf(unit, line, request, response)),
  );
  api.get('/draw-tests', (_request, response) => {
    response.json({ tests: drawTests });
  });
  api.get(
    '/repair',
    ofLine(unit, ({ line }, { query }, response) => {
      const lumen = query['lumen'];
      const judgement = repairJudgement(
        line,
        typeof lumen === 'string' ? { lumen } : {},
        unit.policy,
        unit.when,
      );
      response.json({ text: renderRepair(judgement, line, unit.when) });
    }),
  );
  return api;
}

/** A route of one line, by `?line=Device/…`. What the calculators refuse is an answer, too. */
function ofLine(unit: ShownUnit, answer: (line: LineOfUnit, request: Request, response: Response) => void) {
  return (request: Request, response: Response) => {
    const ref = request.query['line'];
    const found = typeof ref === 'string' ? unit.line(ref) : undefined;
    if (!found) {
      const say = speaker(english, new Calendar(unit.when.zone));
      response.status(404).json({ problems: [say({ code: 'charts-on-unknown' })] });
      return;
    }
    try {
      answer(found, request, response);
    } catch (error) {
      if (!(error instanceof CoreError)) throw error;
      response.status(422).json({ problems: [error.message] });
    }
  };
}

function drawOf(unit: ShownUnit, line: LineOfUnit['line'], { query }: Request, response: Response): void {
  const tests = String(query['tests'] ?? '')
    .split(',')
    .filter((one): one is (typeof drawTests)[number] => (drawTests as readonly string[]).includes(one));
  const lumen = query['lumen'];
  const draw = bloodDraw(
    line,
    { tests: tests.map((test) => ({ test })), ...(typeof lumen === 'string' ? { lumen } : {}) },
    unit.policy,
    unit.when,
  );
  response.json({ text: renderDraw(draw, line.name, unit.when.zone) });
}
