/** What scripts catch, for a person at a terminal. */

import { MECHANISMS } from '../../machine/index.js';
import { provingWording } from '../../proving/wording/index.js';
import { nameOf } from '../../sequence/check.js';
import { faultList } from '../../sequence/fault-text.js';
import { byPlace, type Judgement, type LeftOut, percent, type Script, WHY } from '../judgement.js';
import { harmless, paragraph, type Terminal } from '../terminal.js';
import { aligned } from './aligned.js';

const wording = provingWording('en');

export function coverageText({ library, scripts, leftOut }: Judgement, terminal: Terminal): string {
  const parts = scripts.map((script) => scriptText(script, library, terminal));
  const silent = leftOut.filter(({ why }) => why === 'nobody-looks').length;
  const others = leftOut.filter(({ why }) => why !== 'nobody-looks');
  const end = [
    ...others.map((one) => leftOutLine(one, library)),
    ...(silent > 0
      ? [`In ${silent} ${silent === 1 ? 'sequence' : 'sequences'} nobody looks: no expect and no ask.`]
      : []),
    ...(scripts.length === 0 && leftOut.length === 0 ? ['There is no sequence to judge.'] : []),
  ];
  return [...parts, ...(end.length > 0 ? [`${end.join('\n')}\n`] : [])].join('\n');
}

const leftOutLine = ({ file, report, why }: LeftOut, library: Judgement['library']): string =>
  `${harmless(file)}:${library.lineOf(report.section) + 1}: ${nameOf(report)} is not judged: ${WHY[why]}.`;

function scriptText(script: Script, library: Judgement['library'], terminal: Terminal): string {
  const { colors } = terminal;
  const { coverage, sequences, profile } = script;
  const names = sequences.map(({ report }) => nameOf(report)).join(', ');
  const files = [...new Set(sequences.map(({ file }) => file))].map(harmless).join(', ');
  const beyond = coverage.judged.filter((one) => !one.isWithinReach);
  const rows = MECHANISMS.flatMap((part) => {
    const tally = coverage.byMechanism.get(part);
    return tally ? [[wording.part[part], tally] as const] : [];
  });
  const lines = [
    `${colors.bold(names)} on ${profile.name}  ${colors.dim(files)}`,
    ...paragraph(`${wording.catches(coverage.total)} within reach (${percent(coverage.total)})`, '  ', terminal).split(
      '\n',
    ),
    ...aligned(
      rows.map(([part, tally]) => [
        { text: `    ${part}`, left: true },
        { text: `${tally.caught} of ${tally.all}` },
        { text: percent(tally) },
        { text: tally.caught < tally.all ? '' : 'all', left: true },
      ]),
    ),
    ...(beyond.length > 0
      ? [
          paragraph(
            `${wording.outOfReach} on this machine: ${faultList(beyond.map(({ fault }) => fault))}`,
            '  ',
            terminal,
          ),
        ]
      : []),
    ...uncaughtLines(script, library, terminal),
  ];
  return `${lines.join('\n')}\n`;
}

/** By place what would have to be added there, and what that catches. */
function uncaughtLines(script: Script, library: Judgement['library'], terminal: Terminal): string[] {
  if (script.proposals.length === 0) return [];
  const lines = ['  uncaught, with the shortest addition that was found for each:'];
  for (const [place, proposals] of byPlace(script, library)) {
    lines.push(paragraph(`${harmless(place)}:`, '    ', terminal));
    for (const { addition, faults } of proposals) {
      if (addition) lines.push(paragraph(harmless(addition.lines.join('; ')), '      ', terminal));
      lines.push(terminal.colors.dim(paragraph(faultList(faults), '          ', terminal)));
    }
  }
  return lines;
}
