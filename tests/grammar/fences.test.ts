/** The fences of a page are those that CommonMark sees, whatever stands around them. */
import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { expect, it } from 'vitest';
import { crankFences } from '../../grammar/markdown.js';

const commonmark = new MarkdownIt('commonmark', { html: true });
const line = fc.constantFrom(
  '```crank',
  '```',
  '~~~ crank',
  '~~~',
  '  ```crank',
  '    ```crank',
  '> ```crank',
  '> ```',
  '>',
  '- ```crank',
  '  turn',
  '1. ```crank',
  'turn 2',
  '',
  '[a]: /b "c',
  '[a]: <b',
  '"',
  '| a | b |',
  '| - | - |',
  '<div>',
  '</div>',
  '<!--',
  '-->',
  '===',
  '---',
  '# Heading',
  '````crank',
  '````',
  '\ttext',
);

it('reads the same fences as a whole reader of CommonMark', () => {
  fc.assert(
    fc.property(fc.array(line, { maxLength: 24 }), (lines) => {
      const text = lines.join('\n');
      const seen = commonmark.parse(text, {}).filter(({ type, info }) => type === 'fence' && info.trim() === 'crank');
      expect(crankFences(text).map(({ from }) => from - 1)).toEqual(seen.map(({ map }) => map?.[0]));
    }),
    { numRuns: 2_000 },
  );
});
