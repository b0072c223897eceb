/** Whatever the text: nothing throws, and all that is offered can be made. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CodeAction } from 'vscode-languageserver';
import { stateText } from '../../../server/sequence/trace.js';
import { codeActions, fixAll, resolveAction } from '../../../server/service/actions.js';
import type { AnalysedDocument } from '../../../server/service/document.js';
import { anyFileText } from '../../grammar/generate.js';
import { deedText, machineText, trials } from '../../sequence/random.js';
import { openMarked, reader } from '../editor.js';
import { actionsAt, edited, editsOf, everywhere, mended, statesIn } from './acting.js';

const FOLDER = new URL('../../../samples/', import.meta.url);
const samples = Object.fromEntries(
  readdirSync(FOLDER)
    .filter((name) => /\.(?:crank|md)$/.test(name))
    .map((name) => [name, readFileSync(new URL(name, FOLDER), 'utf8')]),
);

/** Every action at every line, as a cursor and as a selection of two lines. */
function* allActions(document: AnalysedDocument): Generator<CodeAction> {
  for (let line = 0; line < document.lines.length; line++) {
    const middle = { line, character: document.lines[line].length >> 1 };
    yield* codeActions(document, { start: middle, end: middle }, {}, reader());
    const range = { start: { line, character: 0 }, end: { line: line + 2, character: 0 } };
    yield* codeActions(document, range, { only: ['refactor'] }, reader({ locale: 'de' }));
  }
}

/** Makes each of them alone; an edit that overlaps another throws. */
function makeAll(text: string, document: AnalysedDocument): number {
  let made = 0;
  for (const action of allActions(document)) {
    const edits = editsOf(document, action);
    expect(action.title).not.toMatch(/undefined|NaN|\[object|\n/);
    // What takes a while to know may turn out not to be needed: then it says why.
    const { disabled } = resolveAction(document, action, reader());
    if (disabled) {
      expect(edits).toEqual([]);
      expect(disabled.reason).toMatch(/\S/);
    } else {
      expect(edits, action.title).not.toEqual([]);
      edited(text, edits);
    }
    made++;
  }
  edited(text, fixAll(document, reader()));
  return made;
}

describe.each(Object.keys(samples))('%s', (name) => {
  test('everything that is offered can be made', () => {
    const { [name]: text, ...others } = samples;
    const { document } = openMarked(text, others, name);
    const made = makeAll(text, document);
    // A file of machines that all are used leaves nothing to do.
    if (name !== 'machines.crank') expect(made).toBeGreaterThan(0);
  });
});

test('in any text', () => {
  fc.assert(
    fc.property(anyFileText, (text) => {
      makeAll(text, openMarked(text).document);
    }),
    { numRuns: 60 },
  );
});

test('in a text that somebody has broken anywhere', () => {
  const cut = fc.tuple(
    anyFileText,
    fc.nat(),
    fc.constantFrom('"', '{', '}', ';', '.', '(', ' ', '\n', '#', 'on', '\\'),
  );
  fc.assert(
    fc.property(cut, ([text, at, mark]) => {
      const i = at % (text.length + 1);
      const broken = text.slice(0, i) + mark + text.slice(i + 1);
      makeAll(broken, openMarked(broken).document);
    }),
    { numRuns: 60 },
  );
});

describe('on any machine', () => {
  const onAny = fc.tuple(trials(), fc.constantFrom('\n  ', '; ')).map(([[plan, deeds], glue]) => {
    return `${machineText(plan)}sequence trial on stores\n  ${deeds.map(deedText).join(glue)}\n`;
  });
  test('a fix that is evident mends its finding and brings no error', () => {
    fc.assert(
      fc.property(onAny, (text) => {
        const opened = openMarked(text);
        for (const action of codeActions(
          opened.document,
          everywhere(opened.document),
          { only: ['quickfix'] },
          reader(),
        )) {
          if (!action.isPreferred) continue;
          expect(mended(opened, action, action.data.code).problems, `${action.title}\n${text}`).toEqual([]);
        }
      }),
      { numRuns: 150 },
    );
  });
  test('what is mended unseen leaves the machine as it was', () => {
    const atEnd = ({ report }: AnalysedDocument) =>
      report.sequences.flatMap(({ runs }) =>
        runs.map(({ state, order }) => ({ ...stateText(state, order.profile), bell: false, turns: 0 })),
      );
    fc.assert(
      fc.property(onAny, (text) => {
        const { document } = openMarked(text);
        const now = openMarked(edited(text, fixAll(document, reader()))).document;
        expect(atEnd(now)).toEqual(atEnd(document));
      }),
      { numRuns: 150 },
    );
  });
  test('opening out leaves every state as it was', () => {
    fc.assert(
      fc.property(onAny, (text) => {
        const { document } = openMarked(text);
        for (const action of allActions(document)) {
          if (action.kind !== 'refactor.inline' || action.disabled) continue;
          const now = openMarked(edited(text, editsOf(document, action))).document;
          expect(statesIn(now), `${action.title}\n${text}`).toEqual(statesIn(document));
        }
      }),
      { numRuns: 100 },
    );
  });
  test('readings that are written down are met', () => {
    fc.assert(
      fc.property(onAny, (text) => {
        const { document } = openMarked(text);
        for (const action of allActions(document)) {
          if (action.kind !== 'refactor.rewrite' || action.disabled) continue;
          const now = openMarked(edited(text, editsOf(document, action))).document;
          const codes = now.report.findings.map(({ facts }) => facts.code);
          expect(codes, `${action.title}\n${text}`).not.toContain('reading-differs');
          const errors = (one: AnalysedDocument) =>
            one.report.findings.filter(
              ({ facts }) => facts.code === 'result-overdraw' || facts.code === 'result-overflow',
            ).length;
          if (!action.title.includes('end')) expect(errors(now), `${action.title}\n${text}`).toBe(errors(document));
        }
      }),
      { numRuns: 100 },
    );
  });
});

test('the mistakes: each evident fix removes its finding', () => {
  const { 'mistakes.crank': text, ...others } = samples;
  const opened = openMarked(text, others, 'mistakes.crank');
  const seen = new Set<string>();
  for (const action of actionsAt({ ...opened, cursors: [], ranges: [] }, { only: ['quickfix'] })) {
    if (!action.isPreferred) continue;
    seen.add(action.data.code);
    expect(mended(opened, action, action.data.code, others, 'mistakes.crank').problems, action.title).toEqual([]);
  }
  expect(seen.size).toBeGreaterThanOrEqual(10);
});
