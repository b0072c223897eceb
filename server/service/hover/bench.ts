/** What a bench record says of the machine: over its header and its lines. */
import type { Gradual } from '../../../grammar/gradual.js';
import type { BenchSection } from '../../../grammar/tree.js';
import { type Diagnosis, diagnose } from '../../proving/diagnosis.js';
import { type ToldDiagnosis, tell } from '../../proving/told.js';
import { provingWording } from '../../proving/wording/index.js';
import type { BenchReport } from '../../sequence/bench.js';
import type { AnalysedDocument, Reader } from '../document.js';
import { block, code, plain } from '../markdown.js';

/** Faults, and outcomes of the next step, that are listed; a reader takes in no more. */
const MOST_LISTED = 8;

/** Invariant: a report never changes, so that what was reckoned of it holds until it is another one. */
const KNOWN = new WeakMap<BenchReport, Diagnosis | undefined>();

/** What was reckoned of a record, paragraph by paragraph. */
export function* benchParts(document: AnalysedDocument, section: BenchSection, reader: Reader): Gradual<string[]> {
  const bench = document.report.sections.find((one) => one.section === section)?.bench;
  if (!bench) return [];
  if (!KNOWN.has(bench)) KNOWN.set(bench, yield* diagnose(bench));
  return toldParts(tell(bench, KNOWN.get(bench), provingWording(reader.locale)), reader);
}

function toldParts({ summary, remarks, faults, next }: ToldDiagnosis, { words }: Reader): string[] {
  const { more } = words.hover;
  const listed = <T>(all: readonly T[], text: (one: T) => string): string[] => {
    const lines = all.slice(0, MOST_LISTED).map((one) => `- ${text(one)}`);
    const rest = all.length - MOST_LISTED;
    return all.length === 0 ? [] : [[...lines, ...(rest > 0 ? [`- ${more(rest)}`] : [])].join('\n')];
  };
  return [
    `**${plain(summary)}**`,
    ...remarks.map(plain),
    ...listed(faults, ({ fault, does, look }) => `${code(fault)}: ${plain(does)}; ${plain(look)}`),
    ...(next
      ? [
          plain(next.text),
          ...(next.steps.length > 0 ? [block(next.steps, 'crank')] : []),
          ...listed(
            next.classes,
            ({ shown, faults: those }) => `${plain(shown)}: ${those.slice(0, MOST_LISTED).map(code).join(', ')}`,
          ),
        ]
      : []),
  ];
}
