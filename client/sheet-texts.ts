/** What the page of a panel says of itself. */
import { l10n } from 'vscode';
import type { PageTexts } from './sheet-messages.js';
import { printsInBrowser } from './sheet-out.js';

export const pageTexts = (): PageTexts => ({
  panel: l10n.t('A sheet beside the text'),
  sheet: l10n.t('The sheet'),
  toolbar: l10n.t('What is shown, saved and printed'),
  sequence: l10n.t('Sequence'),
  follow: l10n.t('Follow the cursor'),
  kind: l10n.t('Kind'),
  language: l10n.t('Language'),
  paper: l10n.t('Paper'),
  figures: l10n.t('Machine drawn'),
  save: l10n.t('Save…'),
  print: printsInBrowser() ? l10n.t('Print from the browser') : l10n.t('Download to print'),
  printHow: printsInBrowser()
    ? l10n.t('An editor can’t print. The sheet opens in your browser, and is printed from there.')
    : l10n.t('An editor can’t print. The sheet is downloaded; open it in a browser, and print it from there.'),
});
