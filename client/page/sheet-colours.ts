/**
 * A sheet in the colours of the editor's theme. A page is told whether the system is light or dark, which need not be
 * what the editor is: here the editor's theme answers in the system's place.
 */

/** Names of the sheet's colours (`server/sheets/style.ts`), and what they are where contrast has to be high. */
const HIGH_CONTRAST: Readonly<Record<string, string>> = {
  '--ink': '--vscode-editor-foreground',
  '--pale': '--vscode-editor-foreground',
  '--accent': '--vscode-editor-foreground',
  '--care': '--vscode-editor-foreground',
  '--rule': '--vscode-contrastBorder',
  '--ground': '--vscode-editor-background',
  '--window': '--vscode-editor-background',
  '--care-ground': '--vscode-editor-background',
};

export function inColours(sheet: Document): void {
  const { classList } = document.body;
  const isLight = classList.contains('vscode-light') || classList.contains('vscode-high-contrast-light');
  const isHigh = classList.contains('vscode-high-contrast') || classList.contains('vscode-high-contrast-light');
  for (const { cssRules } of sheet.styleSheets) {
    for (const rule of cssRules) answer(rule, isLight);
  }
  const { style } = sheet.documentElement;
  style.colorScheme = isLight ? 'light' : 'dark';
  const colours = getComputedStyle(document.documentElement);
  for (const [name, from] of Object.entries(HIGH_CONTRAST)) {
    const colour = colours.getPropertyValue(from);
    if (isHigh && colour !== '') style.setProperty(name, colour);
    else style.removeProperty(name);
  }
}

const DARK = '(prefers-color-scheme: dark)';
/** What stands in place of it, which no other rule says. */
const ANSWER = { dark: 'screen and (min-width: 0px)', light: 'not all' } as const;

function answer(rule: CSSRule, isLight: boolean): void {
  if (!('media' in rule)) return;
  const { media } = rule as CSSMediaRule;
  const isAsked =
    [ANSWER.dark, ANSWER.light].some((text) => text === media.mediaText) || media.mediaText.includes(DARK);
  if (isAsked) media.mediaText = isLight ? ANSWER.light : ANSWER.dark;
}
