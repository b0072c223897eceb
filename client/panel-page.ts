/**
 * The page of a panel: empty controls, and places that its script fills.
 *
 * Invariant: no text of a file stands in it. Texts come as messages, and the script puts them in as text.
 */
import { Uri, type Webview, type WebviewPanel } from 'vscode';

/** Where the scripts and styles of pages are, from the extension's folder. */
const FOLDER = 'dist';

export const resourcesOf = (extension: Uri): Uri[] => [Uri.joinPath(extension, FOLDER)];

/** @param name which page it is: that of the script and the style */
export function pageFor(webview: Webview, extension: Uri, name: 'sheet' | 'machine', body: string): string {
  const nonce = newNonce();
  const at = (file: string) => webview.asWebviewUri(Uri.joinPath(extension, FOLDER, file)).toString();
  // The style of a sheet in a frame stands in it, and bears the nonce.
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src ${webview.cspSource} 'nonce-${nonce}'; base-uri 'none'; form-action 'none'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Cranknote</title>
<link rel="stylesheet" href="${at(`${name}-page.css`)}">
</head>
<body>
${body}<script nonce="${nonce}" src="${at(`${name}-page.js`)}"></script>
</body>
</html>
`;
}

/** A list to choose from, with its label. */
export const choice = (name: string): string => `<label><span></span><select id="${name}"></select></label>`;
export const FOLLOW = '<label class="switch"><input id="follow" type="checkbox"><span></span></label>';
export const TROUBLE =
  '<div id="trouble" role="status" hidden><div><p></p><p></p></div><button type="button" hidden></button></div>';

/** A number that nobody can guess. */
const newNonce = (): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');

/** What stands on the tab of a panel. */
export function giveIcon(panel: WebviewPanel, extension: Uri): void {
  panel.iconPath = {
    light: Uri.joinPath(extension, 'icons/crank-light.svg'),
    dark: Uri.joinPath(extension, 'icons/crank-dark.svg'),
  };
}
