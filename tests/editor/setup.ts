/** Says what is missing where there is no editor to test with; a check before a change lands must have one. */
import { isInstalled } from './editor.js';
import { isWebInstalled } from './web.js';

export default function setup(): void {
  if (isInstalled && isWebInstalled) return;
  const missing = 'No editor or no Chromium found: `bash tests/editor/install.sh` brings them, EDITOR_HOME says where.';
  if (process.env.CI) throw new Error(missing);
  console.warn(`${missing} The tests in the editor are left out.`);
}
