/** Steps written in another way that comes to the same. */
import { CodeActionKind, type Range, type TextEdit } from 'vscode-languageserver';
import { print } from '../../../grammar/printer.js';
import type { AnalysedDocument } from '../document.js';
import type { Words } from '../wording/index.js';
import { expectAfterEach, expectAsked, expectAtEnd } from './expects.js';
import { extract } from './extract.js';
import { gather } from './gather.js';
import { type Outcome, openOut } from './open-out.js';
import { type Scene, sceneAt } from './scene.js';

/** A rewriting that is offered; its edits are worked out when they are wanted. */
export interface Offer {
  readonly name: string;
  readonly kind: CodeActionKind;
  readonly title: string;
  /** Why it can't be done here. */
  readonly disabled?: string;
}

interface Refactoring {
  readonly kind: CodeActionKind;
  /** What it would come to; undefined where it has nothing to do. */
  work(scene: Scene): { readonly title: string; readonly outcome: Outcome } | undefined;
}

const titled = (title: string, outcome: Outcome | undefined) => outcome && { title, outcome };

const REFACTORINGS: Readonly<Record<string, Refactoring>> = {
  'open-out': {
    kind: CodeActionKind.RefactorInline,
    work: (scene) => {
      const { step, words } = scene;
      if (!step) return undefined;
      const written = print(step.syntax).replace(/ \{$/, '');
      return titled(words.openOut(written), openOut(scene));
    },
  },
  extract: {
    kind: CodeActionKind.RefactorExtract,
    work: (scene) => {
      const extracted = extract(scene);
      return extracted && titled(scene.words.extract(extracted.name), extracted.outcome);
    },
  },
  gather: {
    kind: CodeActionKind.RefactorRewrite,
    work: (scene) => {
      const gathered = gather(scene);
      return gathered && titled(scene.words.gather(gathered.step), { edits: gathered.edits });
    },
  },
  'expect-asked': {
    kind: CodeActionKind.RefactorRewrite,
    work: (scene) => titled(scene.words.expectAsked, expectAsked(scene)),
  },
  'expect-after-each': {
    kind: CodeActionKind.RefactorRewrite,
    work: (scene) => (scene.isHeader ? titled(scene.words.expectAfterEach, expectAfterEach(scene)) : undefined),
  },
  'expect-at-end': {
    kind: CodeActionKind.RefactorRewrite,
    work: (scene) => {
      const isAtEnd = scene.step !== undefined && scene.step === scene.section.steps.at(-1);
      return scene.isHeader || isAtEnd ? titled(scene.words.expectAtEnd, expectAtEnd(scene)) : undefined;
    },
  },
};

/** What can be rewritten at a range, or could if something were otherwise. */
export function offeredRefactorings(
  document: AnalysedDocument,
  range: Range,
  words: Words['actions'],
  isWanted: (kind: CodeActionKind) => boolean,
): Offer[] {
  const wanted = Object.entries(REFACTORINGS).filter(([, { kind }]) => isWanted(kind));
  const scene = wanted.length > 0 ? sceneAt(document, range, words) : undefined;
  if (!scene) return [];
  return wanted.flatMap(([name, { kind, work }]) => {
    const worked = work(scene);
    if (!worked) return [];
    const { title, outcome } = worked;
    return { name, kind, title, ...('disabled' in outcome && { disabled: outcome.disabled }) };
  });
}

/** The edits of a rewriting that was offered at a range; undefined where it can't be done any more. */
export function refactoring(
  document: AnalysedDocument,
  name: string,
  range: Range,
  words: Words['actions'],
): readonly TextEdit[] | undefined {
  const known = Object.hasOwn(REFACTORINGS, name) ? REFACTORINGS[name] : undefined;
  const scene = known && sceneAt(document, range, words);
  const outcome = scene && known.work(scene)?.outcome;
  return outcome && 'edits' in outcome ? outcome.edits : undefined;
}
