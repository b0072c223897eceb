/** After any edits, a library that has followed them says what one says that has only seen the end. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Library } from '../../server/sequence/library.js';
import { traceOf } from '../../server/sequence/trace.js';

/** Sections that need one another, so that an edit in one is felt in others. */
const SECTIONS = [
  'machine stores\n  setting 4\n  counter 4\n  result 8\n',
  'machine stores\n  setting 3\n  counter 4 plain\n  result 8 dials\n',
  'machine shed like stores\n  bell\n',
  'machine stores like shed\n  no counter\n',
  'sequence sow on stores\n  clear all\n  set 12\n  turn 3\n',
  'sequence sow (pots = 5) on shed\n  clear all\n  set pots\n  turn 3\n',
  'sequence dig on shed\n  run sow\n  expect result 36\n',
  'sequence dig\n  clear all\n  run sow (7)\n  run rake\n  turn back 4\n',
  'sequence rake on stores\n  run dig\n  dial result 5\n',
  'sequence trial on shad\n  clear all\n  run sew\n',
  'use "a.crank"\n',
  'use "b.crank"\n',
  '# a row of beds\n',
];
const FILES = ['a.crank', 'b.crank', 'c.md'] as const;

interface Edit {
  readonly file: (typeof FILES)[number];
  readonly what: 'put' | 'drop' | 'remove';
  readonly at: number;
  readonly section: string;
}
const edits = fc.array(
  fc.record<Edit>({
    file: fc.constantFrom(...FILES),
    what: fc.constantFrom('put', 'put', 'put', 'put', 'drop', 'drop', 'remove'),
    at: fc.nat(6),
    section: fc.constantFrom(...SECTIONS),
  }),
  { minLength: 1, maxLength: 14 },
);

const textOf = (file: string, sections: readonly string[]): string =>
  file.endsWith('.md') ? `# Beds\n\n\`\`\`crank\n${sections.join('')}\`\`\`\n` : `${sections.join('')}# end`;

test('findings and traces are the same, messages and all', () => {
  let found = 0;
  fc.assert(
    fc.property(edits, (list) => {
      const followed = new Library();
      const texts = new Map<string, string[]>();
      for (const { file, what, at, section } of list) {
        const sections = texts.get(file) ?? [];
        if (what === 'remove') {
          texts.delete(file);
          followed.remove(file);
        } else {
          const index = at % (sections.length + 1);
          if (what === 'put') sections.splice(index, 0, section);
          else sections.splice(index, 1);
          texts.set(file, sections);
          followed.set(file, textOf(file, sections));
        }
        const fresh = new Library();
        for (const [name, now] of texts) fresh.set(name, textOf(name, now));
        for (const name of texts.keys()) {
          const trace = traceOf(followed, followed.check(name));
          expect(trace).toEqual(traceOf(fresh, fresh.check(name)));
          found += trace.findings.length;
        }
      }
    }),
    { numRuns: 150 },
  );
  expect(found).toBeGreaterThan(500);
});
