/**
 * The page of a panel: nothing but empty controls, a place for trouble and a frame. Its script (`page/sheet.ts`) fills
 * them.
 *
 * Invariant: no text of a file stands in it. Texts come as messages, and the script puts them in as text; the sheet comes
 * into a frame that runs no script, with the sheet's own policy besides.
 */
import { Uri, type Webview } from 'vscode';

/** Where the page's script and style are, from the extension's folder. */
const SCRIPT = ['dist', 'sheet-page.js'];
const STYLE = ['dist', 'sheet-page.css'];

export const resourcesOf = (extension: Uri): Uri[] => [Uri.joinPath(extension, 'dist')];

export function pageFor(webview: Webview, extension: Uri): string {
  const nonce = newNonce();
  const at = (parts: readonly string[]) => webview.asWebviewUri(Uri.joinPath(extension, ...parts)).toString();
  const choice = (name: string) => `<label><span></span><select id="${name}"></select></label>`;
  // The style of the sheet in the frame stands in it, and bears the nonce.
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src ${webview.cspSource} 'nonce-${nonce}'; base-uri 'none'; form-action 'none'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Cranknote</title>
<link rel="stylesheet" href="${at(STYLE)}">
</head>
<body>
<header>
<h1></h1>
<div id="tools" role="group">
${choice('sequence')}
<label class="switch"><input id="follow" type="checkbox"><span></span></label>
${['kind', 'language', 'figures', 'paper'].map(choice).join('\n')}
<div class="buttons"><button id="save" type="button"></button><button id="print" type="button"></button></div>
</div>
<p id="told" role="status"></p>
<div id="trouble" role="status" hidden><div><p></p><p></p></div><button type="button" hidden></button></div>
</header>
<main><iframe id="sheet" sandbox="allow-same-origin" tabindex="0" hidden></iframe></main>
<script nonce="${nonce}" src="${at(SCRIPT)}"></script>
</body>
</html>
`;
}

/** A number that nobody can guess. */
const newNonce = (): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
