/** What scripts catch, as a page of HTML: a map of each machine's places with what of them is proved. */

import { type Fault, type FaultKind, faultsOf, keyOf, MECHANISMS, type Profile } from '../../machine/index.js';
import type { Judged } from '../../proving/coverage.js';
import { provingWording } from '../../proving/wording/index.js';
import { nameOf } from '../../sequence/check.js';
import { faultList, faultText } from '../../sequence/fault-text.js';
import { escapeXml } from '../../sheets/escape.js';
import { pageHtml } from '../../sheets/html.js';
import { styleOf } from '../../sheets/style.js';
import { sheetWords } from '../../sheets/wording/index.js';
import { byPlace, type Judgement, percent, type Script, WHY } from '../judgement.js';

const wording = provingWording('en');

const MAP = `
body { max-width: 52rem; }
.map { width: auto; }
.map th[scope="row"] { font-weight: 400; white-space: nowrap; padding: .1em .8em .1em .2em; }
.map thead th, .map td { text-align: center; width: 1.9em; padding: .1em .15em; }
.map thead th:first-child { text-align: left; width: auto; }
.map td { border-left: 1px solid var(--rule); line-height: 1.5; }
.map .yes { background: var(--accent); color: var(--ground); font-weight: 700; }
.map .no { background: var(--window); color: var(--ink); }
.map .beyond { color: var(--pale); }
main .scroll { overflow-x: auto; margin-top: 1.2em; }
.scroll .map { margin-top: 0; }
.scroll:focus-visible { outline: 3px solid var(--accent); }
.said { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.tally { width: auto; }
.more dt { margin-top: 1em; font-weight: 700; }
.more dd { margin-top: .4em; padding-left: 1.2em; }
.more dd + dd { margin-top: .5em; }
@media print { .map .yes { background: none; color: #000; } .scroll { overflow: visible; } }`;

export function coveragePage(judgement: Judgement): string {
  const { scripts, leftOut } = judgement;
  const title = 'What the scripts prove';
  const body = `<header>
<p class="kind">Coverage</p>
<h1>${escapeXml(title)}</h1>
</header>
<main>
<p>Every fault of a machine is cranked through the script by itself; it is caught if a reading that somebody takes is then
another one. This tells what a script would notice, and nothing about a machine on the bench: there its own manual, and
people who know it, come first. Never force a crank.</p>
<p class="fine">${LEGEND}</p>
${scripts.map((script) => scriptHtml(script, judgement)).join('\n')}
${leftOut.length === 0 ? '' : leftOutHtml(judgement)}
</main>
`;
  const style = `${styleOf({ paper: 'a4', foot: title, widths: [] }, sheetWords('en'))}${MAP}`;
  return pageHtml({ language: 'en', title, style, body });
}

/** Told by shape, and to who cannot see it in words. */
const MARKS = { yes: ['■', 'caught'], no: ['□', 'uncaught'], beyond: ['·', 'out of reach'] } as const;
const LEGEND = `${Object.values(MARKS)
  .map(([sign, said]) => `${sign} ${said}`)
  .join(' &ensp; ')} &ensp; Places count from the right, as on the machine.`;

function scriptHtml(script: Script, { library }: Judgement): string {
  const { coverage, sequences, profile } = script;
  const { total, byMechanism } = coverage;
  const files = [...new Set(sequences.map(({ file }) => file))].join(', ');
  const title = profile.title === undefined ? profile.name : `${profile.name}, ${profile.title}`;
  const rows = MECHANISMS.flatMap((part) => {
    const tally = byMechanism.get(part);
    if (!tally) return [];
    const figures = `<td class="figures">${tally.caught} of ${tally.all}</td><td class="figures">${percent(tally)}</td>`;
    return [`<tr><th scope="row">${escapeXml(wording.part[part])}</th>${figures}</tr>`];
  });
  return `<section>
<h2>${sequences.map(({ report }) => escapeXml(nameOf(report))).join(', ')}</h2>
<p>On ${escapeXml(title)}; from ${escapeXml(files)}.</p>
<p><strong>It ${escapeXml(wording.catches(total))} within reach (${percent(total)}).</strong></p>
<table class="tally">
<caption>By parts of the machine</caption>
<thead><tr><th scope="col">part</th><th scope="col" class="figures">caught</th><th scope="col" class="figures">share</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>
${mapsOf(profile, coverage.judged)}
${moreHtml(script, library)}
</section>`;
}

interface MapRow {
  readonly title: string;
  /** The fault at a place, if the machine can have it there. */
  readonly at: (place: number) => Fault;
}

function mapsOf(profile: Profile, judged: readonly Judged[]): string {
  const known = new Map(judged.map((one) => [keyOf(one.fault), one]));
  const figures = [9, 8, 7, 6, 5, 4, 3, 2, 1];
  const at =
    (kind: Extract<FaultKind, 'lever-dead' | 'count-dead' | 'auto-clear-dead' | 'transfer-dead'>) => (place: number) =>
      ({ kind, place }) satisfies Fault;
  const cleared = (register: 'setting' | 'counter' | 'result'): MapRow => ({
    title: 'clears',
    at: (place) => ({ kind: 'clear-short', register, place }),
  });
  const levers: MapRow[] = [
    { title: 'drives at all', at: at('lever-dead') },
    ...figures.map(
      (figure): MapRow => ({
        title: `drives ${figure}`,
        at: (place) => ({ kind: 'lever-short', place, figure }),
      }),
    ),
    cleared('setting'),
    { title: 'is cleared by auto-clear', at: at('auto-clear-dead') },
    { title: 'takes a figure in a transfer', at: at('transfer-dead') },
  ];
  const carry = (way: 'add' | 'subtract', title: string): MapRow => ({
    title,
    at: (place) => ({ kind: 'carry-lost', register: 'result', place, way }),
  });
  const result: MapRow[] = [
    carry('add', 'carries, adding'),
    carry('subtract', 'carries, subtracting'),
    { title: 'carries no more after that', at: (place) => ({ kind: 'carry-stuck', register: 'result', place }) },
    cleared('result'),
  ];
  const counter: MapRow[] = [
    { title: 'counts', at: at('count-dead') },
    { title: 'carries', at: (place) => ({ kind: 'carry-lost', register: 'counter', place }) },
    cleared('counter'),
  ];
  const single = faultsOf(profile).filter((fault) => !('place' in fault));
  return [
    mapHtml('Levers', 'lever', profile.setting, levers, known),
    mapHtml('Counter', 'counter wheel', profile.counter, counter, known),
    mapHtml('Result', 'result wheel', profile.result, result, known),
    ...(single.length > 0 ? [`<p>${single.map((fault) => singleHtml(fault, known)).join(' &ensp; ')}</p>`] : []),
  ].join('\n');
}

const SINGLE: Readonly<Record<string, string>> = { 'count-lever-dead': 'count lever', 'bell-dead': 'bell' };

function singleHtml(fault: Fault, known: ReadonlyMap<string, Judged>): string {
  const [sign, said] = MARKS[stateOf(known.get(keyOf(fault)))];
  return `<span aria-hidden="true">${sign}</span> ${escapeXml(SINGLE[fault.kind] ?? faultText(fault))}: ${said}`;
}

const stateOf = (judged: Judged | undefined): keyof typeof MARKS =>
  judged?.caught ? 'yes' : judged?.isWithinReach ? 'no' : 'beyond';

/** A register as it stands on the machine, place 1 at the right; rows that the machine has nothing for are left out. */
function mapHtml(
  caption: string,
  wheel: string,
  places: number,
  rows: readonly MapRow[],
  known: ReadonlyMap<string, Judged>,
): string {
  if (places === 0) return '';
  const columns = Array.from({ length: places }, (_, i) => places - i);
  const lines = rows.flatMap(({ title, at }) => {
    const judged = columns.map((place) => known.get(keyOf(at(place))));
    if (judged.every((one) => one === undefined)) return [];
    const cells = judged.map((one) => (one ? cellHtml(one) : '<td></td>'));
    return [`<tr><th scope="row">${escapeXml(title)}</th>${cells.join('')}</tr>`];
  });
  return `<section class="scroll" tabindex="0" aria-label="${escapeXml(`Map of the ${caption.toLowerCase()}`)}">
<table class="map">
<caption>${escapeXml(caption)}</caption>
<thead><tr><th scope="col">${escapeXml(wheel)}</th>${columns.map((place) => `<th scope="col">${place}</th>`).join('')}</tr></thead>
<tbody>
${lines.join('\n')}
</tbody>
</table>
</section>`;
}

function cellHtml(judged: Judged): string {
  const state = stateOf(judged);
  const [sign, said] = MARKS[state];
  return `<td class="${state}"><span aria-hidden="true">${sign}</span><span class="said">${said}</span></td>`;
}

function moreHtml(script: Script, library: Judgement['library']): string {
  if (script.proposals.length === 0) return '';
  const parts = [...byPlace(script, library)].map(([place, proposals]) => {
    const items = proposals.map(({ addition, faults }) => {
      const lines = addition ? `<code>${escapeXml(addition.lines.join('; '))}</code><br>` : '';
      return `<dd>${lines}<span class="fine">${escapeXml(faultList(faults))}</span></dd>`;
    });
    return `<dt>${escapeXml(place)}</dt>\n${items.join('\n')}`;
  });
  return `<h3>What would catch the rest</h3>
<dl class="more">
${parts.join('\n')}
</dl>`;
}

function leftOutHtml({ leftOut }: Judgement): string {
  const items = leftOut.map(
    ({ file, report, why }) => `<li>${escapeXml(`${nameOf(report)} in ${file}: ${WHY[why]}`)}</li>`,
  );
  return `<section>
<h2>Not judged</h2>
<ul>
${items.join('\n')}
</ul>
</section>`;
}
