/** The page that shows the machine: its script (`page/machine.ts`) fills it. */
import { choice, FOLLOW, TROUBLE } from './panel-page.js';

const button = (id: string): string => `<button id="${id}" type="button"></button>`;

export const MACHINE_PAGE = `<header>
<h1></h1>
<div id="tools" role="group">
${choice('sequence')}
${choice('case')}
${FOLLOW}
</div>
${TROUBLE}
</header>
<main>
<div id="travel" role="group">
<input id="moment" type="range" min="0" max="0" value="0" step="1">
<div class="buttons">
${['start', 'stepBack', 'turnBack', 'turn', 'step', 'end'].map(button).join('\n')}
</div>
</div>
<div id="done">
<p id="said"><button id="place" type="button"></button> <span id="sentence"></span></p>
<p id="where"></p>
</div>
<div id="figure" role="group"></div>
<ul id="remarks" hidden></ul>
<p id="effort"></p>
<dl id="keys"></dl>
<p id="live" role="status"></p>
</main>
`;
