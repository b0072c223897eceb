/** Code actions in tests: asked for, made, and what is found afterwards. */
import type { CodeAction, Range, TextEdit } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { CODES, type Code } from '../../../server/sequence/findings.js';
import { stateText } from '../../../server/sequence/trace.js';
import { type ActionContext, codeActions, resolveAction } from '../../../server/service/actions.js';
import type { AnalysedDocument } from '../../../server/service/document.js';
import { type Opened, openMarked, reader } from '../editor.js';

export type Files = Readonly<Record<string, string>>;

/** The text after edits; throws where two of them overlap. */
export const edited = (text: string, edits: readonly TextEdit[]): string =>
  TextDocument.applyEdits(TextDocument.create('file:///nursery/test.crank', 'crank', 1, text), [...edits]);

export const everywhere = (document: AnalysedDocument): Range => ({
  start: { line: 0, character: 0 },
  end: { line: document.lines.length - 1, character: Number.MAX_SAFE_INTEGER },
});

/** What can be done at a mark, or anywhere where there is none. */
export function actionsAt(opened: Opened, context: ActionContext = {}): CodeAction[] {
  const { document, ranges, cursors } = opened;
  const range = ranges[0] ?? (cursors[0] ? { start: cursors[0], end: cursors[0] } : everywhere(document));
  return codeActions(document, range, context, reader());
}

/** The edits of an action in the document that it was asked of. */
export function editsOf(document: AnalysedDocument, action: CodeAction): TextEdit[] {
  const { edit } = resolveAction(document, action, reader());
  return Object.entries(edit?.changes ?? {}).flatMap(([uri, edits]) => {
    if (uri !== document.uri) throw new Error('another document');
    return edits;
  });
}

/** How often each code is found in a document. */
export function countsIn({ report }: AnalysedDocument): Map<Code, number> {
  const counts = new Map<Code, number>();
  for (const { facts } of report.findings) counts.set(facts.code, (counts.get(facts.code) ?? 0) + 1);
  return counts;
}

/** The text after an action, and everything found in it; the finding must be gone, and no new error have come. */
export function mended(opened: Opened, action: CodeAction, code: Code, others: Files = {}, name = 'test.crank') {
  const after = edited(opened.text, editsOf(opened.document, action));
  const now = openMarked(after, others, name);
  const was = countsIn(opened.document);
  const is = countsIn(now.document);
  const problems: string[] = [];
  if ((is.get(code) ?? 0) >= (was.get(code) ?? 0)) problems.push(`${code} is still there`);
  for (const [other, times] of is) {
    if (CODES[other] === 'error' && times > (was.get(other) ?? 0)) problems.push(`${other} has come`);
  }
  return { after, problems, now };
}

/** What the machine showed after each step that moves something, in every case of a sequence. */
export function statesIn({ report }: AnalysedDocument, name = 'trial'): unknown[] {
  const sequence = report.sequences.find(({ section }) => section.header?.name.name === name);
  if (!sequence) throw new Error(`${name} is not there`);
  return sequence.runs.map(({ tape, order }) => {
    const states: unknown[] = [];
    for (let row = 0; row < tape.length; row++) {
      const { kind } = tape.stepAt(row).syntax;
      if (kind === 'expect' || kind === 'ask' || kind === 'note' || kind === 'caution') continue;
      states.push(stateText(tape.stateAt(row), order.profile));
    }
    return states;
  });
}
