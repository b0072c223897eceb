/** What a hover asks of a session that stands still: a goal as a whole, or a register or parameter. */
import { EvaluatableExpression, type Position, Range, type TextDocument } from 'vscode';

const GOAL = /^(.*\bgoal\s+(?:setting|counter|result)\s*=\s*)([^#;]*[^#;\s])/;
const NAME = /\p{L}[\p{L}\p{M}\p{N}-]*/u;

export function askedAt(document: TextDocument, position: Position): EvaluatableExpression | undefined {
  const { text } = document.lineAt(position.line);
  const [, before, goal] = GOAL.exec(text) ?? [];
  if (goal !== undefined && position.character >= before.length) {
    const { line } = position;
    return new EvaluatableExpression(new Range(line, before.length, line, before.length + goal.length), goal);
  }
  const range = document.getWordRangeAtPosition(position, NAME);
  return range && new EvaluatableExpression(range);
}
