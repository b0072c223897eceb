/** How the theme looks, for pictures that the server draws. */
import { ColorThemeKind, type Disposable, window } from 'vscode';
import { LOOK, type Look, type LookParams } from './protocol.js';
import type { Server } from './server.js';

const LOOKS: Readonly<Record<ColorThemeKind, Look>> = {
  [ColorThemeKind.Light]: 'light',
  [ColorThemeKind.Dark]: 'dark',
  [ColorThemeKind.HighContrast]: 'high-contrast-dark',
  [ColorThemeKind.HighContrastLight]: 'high-contrast-light',
};

export const lookNow = (): Look => LOOKS[window.activeColorTheme.kind] ?? 'light';

/** Tells the server when another theme is chosen. One that is started later is told at its start. */
export const tellOfLooks = (server: Server): Disposable =>
  window.onDidChangeActiveColorTheme(() => {
    const params: LookParams = { look: lookNow() };
    server.notify(LOOK, params);
  });
