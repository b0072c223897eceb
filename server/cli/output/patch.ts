/** What the formatter would change, as a patch. */
import { createTwoFilesPatch, FILE_HEADERS_ONLY } from 'diff';

/** With more changed lines than this, looking for what has stayed would take longer than anybody waits. */
const MOST_CHANGES = 1_000;

/** A unified patch between two states of a file; a sentence where too much has changed to show it. */
export function patchText(file: string, before: string, after: string): string {
  const patch = createTwoFilesPatch(file, file, before, after, 'as it is', 'formatted', {
    context: 3,
    maxEditLength: MOST_CHANGES,
    headerOptions: FILE_HEADERS_ONLY,
  });
  return patch ?? `${file} would change in more lines than can be shown.\n`;
}
