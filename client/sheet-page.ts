/**
 * The page of a sheet: controls, a place for trouble and a frame. Its script (`page/sheet.ts`) fills them; the sheet comes
 * into a frame that runs no script, with the sheet's own policy besides.
 */
import { choice, FOLLOW, TROUBLE } from './panel-page.js';

export const SHEET_PAGE = `<header>
<h1></h1>
<div id="tools" role="group">
${choice('sequence')}
${FOLLOW}
${['kind', 'language', 'figures', 'paper'].map(choice).join('\n')}
<div class="buttons"><button id="save" type="button"></button><button id="print" type="button"></button></div>
</div>
<p id="told" role="status"></p>
${TROUBLE}
</header>
<main><iframe id="sheet" sandbox="allow-same-origin" tabindex="0" hidden></iframe></main>
`;
