/** Steps written in another way that comes to the same. */
import { CodeActionKind, type Range } from 'vscode-languageserver';
import type { Gradual } from '../../../grammar/gradual.js';
import { print } from '../../../grammar/printer.js';
import type { AnalysedDocument, Reader } from '../document.js';
import { carryOver } from './carry-over.js';
import { expectAfterEach, expectAsked, expectAtEnd } from './expects.js';
import { extract } from './extract.js';
import { gather } from './gather.js';
import { type Outcome, openOut } from './open-out.js';
import { planSteps } from './plan-steps.js';
import { proveMore } from './prove-more.js';
import { putReadings } from './put-readings.js';
import { type Asked, type Offered, type Scene, sceneAt } from './scene.js';

/** A rewriting that is offered; its edits are worked out when they are wanted. */
export interface Offer {
  readonly name: string;
  /** Which of several of that name. */
  readonly of?: string;
  readonly kind: CodeActionKind;
  readonly title: string;
  /** Why it can't be done here, where that is known. */
  readonly disabled?: string;
}

interface Refactoring {
  readonly kind: CodeActionKind;
  /** What it would come to; undefined where it has nothing to do. */
  readonly work: (scene: Scene) => Offered | readonly Offered[] | undefined | Gradual<readonly Offered[]>;
}

/** Steps that are looked at wherever the cursor goes. */
const MANY_STEPS = 200;

const titled = (title: string, outcome: Outcome | undefined): Offered | undefined => outcome && { title, outcome };

const REFACTORINGS: Readonly<Record<string, Refactoring>> = {
  'plan-steps': { kind: CodeActionKind.RefactorRewrite, work: planSteps },
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
    work: (scene) => {
      const { isHeader, isAsked, section, words } = scene;
      if (!isHeader) return undefined;
      if (isAsked || section.steps.length <= MANY_STEPS) return titled(words.expectAfterEach, expectAfterEach(scene));
      const outcome = function* (): Gradual<Outcome> {
        yield;
        return expectAfterEach(scene) ?? { disabled: words.disabled.nothing };
      };
      return { title: words.expectAfterEach, outcome };
    },
  },
  'expect-at-end': {
    kind: CodeActionKind.RefactorRewrite,
    work: (scene) => {
      const isAtEnd = scene.step !== undefined && scene.step === scene.section.steps.at(-1);
      return scene.isHeader || isAtEnd ? titled(scene.words.expectAtEnd, expectAtEnd(scene)) : undefined;
    },
  },
  'prove-more': { kind: CodeActionKind.RefactorRewrite, work: proveMore },
  'put-readings': {
    kind: CodeActionKind.RefactorRewrite,
    work: (scene) => titled(scene.words.putReadings, putReadings(scene)),
  },
  'carry-over': { kind: CodeActionKind.RefactorRewrite, work: carryOver },
};

function* workOf({ work }: Refactoring, scene: Scene): Gradual<readonly Offered[]> {
  const offered = work(scene) ?? [];
  yield;
  return 'next' in offered ? yield* offered : [offered].flat();
}

/** What can be rewritten at a range, or could if something were otherwise. */
export function* offeredRefactorings(
  document: AnalysedDocument,
  range: Range,
  reader: Reader,
  asked: Asked,
  isWanted: (kind: CodeActionKind) => boolean,
): Gradual<Offer[]> {
  const wanted = Object.entries(REFACTORINGS).filter(([, { kind }]) => isWanted(kind));
  const scene = wanted.length > 0 ? sceneAt(document, range, reader, asked) : undefined;
  if (!scene) return [];
  const offers: Offer[] = [];
  for (const [name, refactoring] of wanted) {
    for (const { title, outcome, of } of yield* workOf(refactoring, scene)) {
      offers.push({
        name,
        kind: refactoring.kind,
        title,
        ...(of !== undefined && { of }),
        ...('disabled' in outcome && { disabled: outcome.disabled }),
      });
    }
  }
  return offers;
}

/** What comes of a rewriting that was offered at a range; undefined where it isn't offered any more. */
export function* refactoring(
  document: AnalysedDocument,
  { name, of }: Pick<Offer, 'name' | 'of'>,
  range: Range,
  reader: Reader,
): Gradual<Outcome | undefined> {
  const known = Object.hasOwn(REFACTORINGS, name) ? REFACTORINGS[name] : undefined;
  const scene = known && sceneAt(document, range, reader, { isAsked: true, isNamed: true, of });
  if (!scene) return undefined;
  const outcome = (yield* workOf(known, scene)).find((one) => one.of === of)?.outcome;
  return typeof outcome === 'function' ? yield* outcome() : outcome;
}
