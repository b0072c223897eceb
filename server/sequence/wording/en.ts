/**
 * What the findings say, in English: what the machine does, and what to do about it.
 *
 * Another language is another file with the same exports.
 */
import { closingMark, INSET_FIGURES, INSET_KINDS } from '../../../grammar/insets.js';
import type { TextError } from '../../../grammar/tree.js';
import type { Effort } from '../effort.js';
import type {
  Device,
  Differs,
  Facts,
  FactsOf,
  FileProblem,
  GoalProblem,
  InsetFault,
  ProfileProblem,
  Related,
  Severity,
} from '../findings.js';
import type { Look, Looked, Told } from '../looks.js';
import { withoutLeadingZeros } from '../readings.js';
import { cleanText, cutNumber, stepsText } from './shared.js';

/** The message of a finding, one or two sentences. */
export function messageOf(facts: Facts): string {
  switch (facts.code) {
    case 'syntax':
      return syntaxMessage(facts.problem);
    case 'unknown-name': {
      const kind = { machine: 'machine', sequence: 'sequence', parameter: 'parameter', label: 'reading' }[facts.kind];
      if (facts.nearest) return `There is no ${kind} called ${facts.name} here. Did you mean ${facts.nearest}?`;
      if (facts.kind === 'parameter' && facts.name.includes('-')) {
        return `${facts.name} is read as one name, and there is no such parameter. To subtract, put blanks around the minus.`;
      }
      if (facts.kind === 'label') {
        return `There is no reading called ${facts.name} in the sequence. Give an expect that label with as ${facts.name}, or name the reading by its number.`;
      }
      const where =
        facts.kind === 'parameter'
          ? 'Name it behind the title of the sequence.'
          : 'Write it in this file, or bring it in with use "…".';
      return `There is no ${kind} called ${facts.name} here. ${where}`;
    }
    case 'duplicate-name':
      return `${facts.name} is already the name of another ${facts.kind === 'label' ? 'reading' : facts.kind}. Give one of them another name.`;
    case 'no-machine':
      return facts.visible === 0
        ? 'No machine is known here. Describe one with machine, or bring one in with use "…".'
        : `${facts.visible} machines are known here. Say behind the name on which one this is cranked: on NAME.`;
    case 'file-not-found':
      return fileMessage(facts.path, facts.why);
    case 'sequence-cycle':
      if (facts.by === 'use')
        return `${shown(facts.name)} uses this file in turn. Move what both need into a third file.`;
      return facts.by === 'run'
        ? `${facts.name} is being run already: it would run itself without end. This step is left out.`
        : `${facts.name} is like this machine in turn: neither can be built. Write out the lines of one of them.`;
    case 'bad-profile':
      return profileMessage(facts.problem);
    case 'wrong-arguments':
      return argumentsMessage(facts.why);
    case 'setting-too-long':
      return `${shortNumber(facts.figures)} does not fit: there ${facts.places === 1 ? 'is' : 'are'} ${count(facts.places, 'lever')}${facts.at > 1 ? `, and its units are to go to lever ${facts.at}` : ''}. Nothing is set. Use fewer figures or a wider machine.`;
    case 'dial-too-long':
      return `${shortNumber(facts.figures)} does not fit: the result register has ${count(facts.places, 'place')}${facts.at > 1 ? `, and its units are to go to place ${facts.at}` : ''}. Nothing is dialled. Use fewer figures.`;
    case 'places-overlap':
      return `Two of these numbers want lever ${facts.place}. Nothing is set. Move one of them to other levers with at.`;
    case 'no-such-place':
      if (facts.isDecimals) {
        const most = facts.places === 1 ? '1 decimal or none' : `0 to ${facts.places} decimals`;
        return `The ${facts.register} has ${count(facts.places, 'place')}, so it can have ${most}, not ${shortNumber(facts.place)}. No marker is moved.`;
      }
      return `There is no place ${shortNumber(facts.place)}: the ${facts.register} has ${range('place', facts.places)}. Nothing is moved.`;
    case 'too-many-decimals':
      return `${shortNumber(facts.number)} has more decimals than the marker of the ${facts.register} leaves, which is ${facts.marker}. Nothing is set. Move the marker first: points ${facts.register} ${facts.number.split('.')[1]?.length ?? 0}.`;
    case 'not-on-this-machine':
      return `${facts.machine} has ${NO_DEVICE[facts.device]}. The step moves nothing: leave it out, or crank on a machine that can.`;
    case 'one-way-crank':
      return `The crank of ${facts.machine} turns one way only. The step moves nothing: ${facts.subtracts ? 'subtract with mode subtract and turn' : 'this machine only adds, so add the complement'}.`;
    case 'carriage-end':
      return facts.wanted === ''
        ? `The carriage comes to its end and stands in ${positionText(facts.at)}; it has ${range('position', facts.positions)}. Shift fewer places.`
        : `There is no position ${shortNumber(facts.wanted)}: the carriage has ${range('position', facts.positions)}. It stays in ${positionText(facts.at)}.`;
    case 'carriage-parked':
      if (facts.times === 0) return 'The carriage is out of gear: nothing is turned. Shift to a position first.';
      return `The carriage is out of gear: ${turns(facts.times)} moved nothing, not even the counter. Shift to a position first, or expect parked right before.`;
    case 'result-overflow':
      return `${nth(facts.turn)} carries past place ${facts.places}, the highest of the result: it shows 10^${facts.places} too little. Use fewer places, or clear the result before; if it is meant, expect overflow right after.`;
    case 'result-overdraw':
      return `${nth(facts.turn)} takes the result below zero: it shows a complement, with nines at the left. Turn once the other way to make it good; if it is meant, expect overdraw right after.`;
    case 'overflow-restored':
      return `${nth(facts.turn)} carries past place ${facts.places} of the result, and a later turn takes it back.`;
    case 'overdraw-restored':
      return `${nth(facts.turn)} takes the result below zero, and a later turn makes it good.`;
    case 'digits-off-end':
      return `In position ${facts.position} the highest levers stand over no wheel of the result, which has ${count(facts.places, 'place')}: their figures are lost. Shift the carriage left or set fewer figures.`;
    case 'carry-short':
      return `Turn ${facts.turn} carries past place ${facts.place}, where the tens carry of this machine ends with the carriage standing here: the result is 10^${facts.place} out${facts.times > 1 ? ` for each of ${turns(facts.times)}` : ''}. Shift the carriage right or use fewer places.`;
    case 'counter-overflow':
      return facts.wheel !== undefined
        ? `Turn ${facts.turn} takes wheel ${facts.wheel} of the counter past 9, and it has no tens carry: it starts again from 0. Shift the carriage instead of turning so often.`
        : `Turn ${facts.turn} takes the counter past its highest place, ${facts.places}: it starts again from 0. Clear the counter before.`;
    case 'counter-underflow':
      return facts.wheel !== undefined
        ? `Turn ${facts.turn} takes wheel ${facts.wheel} of the counter below 0: it shows 9. Read it as a complement, or clear the counter and count the other way.`
        : `Turn ${facts.turn} takes the counter below zero: it shows a complement, with nines at the left.`;
    case 'turn-not-counted':
      return `In position ${facts.position} the counter, with ${count(facts.places, 'place')}, has no wheel: ${turns(facts.times)} ${facts.times === 1 ? 'is' : 'are'} not counted. Shift the carriage left, or note the turns yourself.`;
    case 'divide-in-add-mode':
      return 'Automatic division makes an adding turn here, with no overdraw to restore, and moves the carriage on. Put the drive to subtract before switching it on.';
    case 'auto-clear-repeat':
      return `auto-clear returns the levers to zero after the first of these ${facts.times} turns: the others add nothing. Switch it off before turning more than once.`;
    case 'never-overdraws':
      if (facts.why === 'stays-below') {
        return 'After 1,000 adding turns the result is still below zero. The run ends here: what follows has no readings. Do the levers go back to zero by themselves?';
      }
      return facts.why === 'adds'
        ? 'These turns add: the result never goes below zero. Nothing is turned. Put the drive to subtract, or turn back.'
        : 'After 1,000 turns the result is still not below zero. The run ends here: what follows has no readings. Are all levers at zero, or does the divisor stand too far right?';
    case 'never-stops':
      return facts.why === 'off'
        ? 'Automatic division is off: nothing stops the crank. Nothing is turned. Switch auto-divide on before.'
        : 'After 1,000 turns automatic division has not stopped. The run ends here: what follows has no readings. Are all levers at zero?';
    case 'too-long':
      return tooLongMessage(facts.what, facts.limit);
    case 'transfer-position':
      return facts.position === 0
        ? 'The carriage is out of gear: nothing is transferred. Shift to position 1 before.'
        : `The carriage stands in position ${facts.position}, and this machine transfers in position 1 alone: nothing is transferred. Shift to 1 before.`;
    case 'transfer-onto-setting':
      return `The levers stand at ${withoutLeadingZeros(facts.setting)}: nothing is transferred onto them. Clear setting before.`;
    case 'transfer-loses-digits':
      return `Not all figures of the ${facts.register}, ${withoutLeadingZeros(facts.reading)}, have a lever under them: the others are lost. Shift the carriage, or cut the number off before.`;
    case 'quotient-as-complement':
      return 'Subtracting turns count down on this counter: it shows the quotient as a complement. Read its complement, or use a machine whose counter can be put to minus.';
    case 'points-disagree':
      return `The result has ${count(facts.result, 'decimal')}, but setting and counter have ${facts.setting} and ${facts.counter}: a product has as many as both together, ${facts.setting + facts.counter}.`;
    case 'reading-differs':
      return differsMessage(facts.differs);
    case 'goal-missed':
      if (facts.why.is === 'differs') {
        return `The ${facts.register} should show ${shortNumber(facts.why.goal)} at the end, and shows ${facts.why.reading}.`;
      }
      return GOAL_PROBLEM[facts.why.is];
    case 'no-such-reading':
      return facts.readings === 0
        ? 'The sequence has no reading: nothing is expected in it. Let it expect what is to be compared.'
        : `There is no reading ${shortNumber(facts.number)}: the sequence has ${count(facts.readings, 'reading')}, counted as its expect steps are carried out. Name one by its number or its label.`;
    case 'found-impossible':
      return facts.what === 'carriage'
        ? `There is no position ${shortNumber(facts.number)}: the carriage has ${range('position', facts.places)}. The reading is left aside.`
        : `The ${facts.what} can't show ${shortNumber(facts.number)}: it has ${count(facts.places, 'place')}. The reading is left aside. Write the figures as the wheels show them.`;
    case 'found-twice':
      return `What the ${READ_AT[facts.what]} showed at this reading was noted before: this is left aside. Keep one of the two.`;
    case 'found-differs':
      return `The sound machine shows ${lookText({ what: facts.what, shown: facts.sound })} here, and ${lookText({ what: facts.what, shown: facts.found })} was found. cranknote diagnose names the faults that would show this.`;
    case 'idle-turn':
      return `All levers stand at zero: ${turns(facts.times)} add${facts.times === 1 ? 's' : ''} nothing. Set a number before, or leave the turn out.`;
    case 'many-turns':
      return `${facts.times} turns in one position: after ten, one turn a position further right does the same.`;
    case 'assumes-clear':
      return `The ${list(facts.registers)} ${facts.registers.length === 1 ? 'is' : 'are'} used here as the machine happens to stand. Clear ${facts.registers.length === 1 ? 'it' : 'them'} at the start.`;
    case 'left-engaged':
      return `At the end ${facts.what.map((what) => ENGAGED[what]).join(', and ')}. The next person will not expect that: put it back.`;
    case 'unused':
      return `Nothing uses the ${facts.kind} ${facts.name}.`;
    case 'shorter-sequence':
      return shorterMessage(facts);
    case 'stale-inset': {
      const what = facts.name === undefined ? facts.kind : `${facts.kind} of ${facts.name}`;
      const by = facts.hasPictures ? 'with cranknote weave' : 'with the light bulb or with cranknote weave';
      return facts.isEmpty
        ? `Here is to stand: ${what}. Fill it in ${by}.`
        : `What stands here (${what}) is not what the machine shows now. Refresh it ${by}.`;
    }
    case 'bad-inset':
      return insetMessage(facts.why);
  }
}

function insetMessage(why: InsetFault): string {
  const meant = (text: string, near: string | undefined) =>
    near === undefined ? text : `${text} Did you mean ${near}?`;
  switch (why.is) {
    case 'no-kind':
      return `Say behind crank: what is to stand here: ${list(INSET_KINDS)} are known.`;
    case 'unknown-kind':
      return meant(`${shown(why.word)} can't be put here: ${list(INSET_KINDS)} are known.`, why.nearest);
    case 'unknown-word':
      return meant(`${shown(why.word)} is not understood in this comment.`, why.nearest);
    case 'bad-figures':
      return meant(`Figures are ${list(INSET_FIGURES)}, not ${shown(why.word)}.`, why.nearest);
    case 'no-value':
      return `Something is missing behind ${why.word}.`;
    case 'twice':
      return `${why.word} stands twice in this comment.`;
    case 'bad-case':
      return `A case is a whole number, and 0 means the defaults: not ${shown(why.word)}.`;
    case 'not-alone':
      return 'The comment has to begin and end on a line of its own.';
    case 'in-html':
      return 'This comment stands within a piece of HTML, where no Markdown is read. Put a blank line above it.';
    case 'text-below':
      return `There is no closing comment, and text right below. Put a blank line or ${END_COMMENT} where the text is to begin.`;
    case 'stray-end':
      return 'This closes nothing: there is no opening comment above it, in the same list or quotation.';
    case 'nested':
      return "An inset can't hold another one. A closing comment may be missing above, or one too many below.";
    case 'too-many':
      return `A page may have ${why.limit} insets. This one and those below it are left as they are.`;
    case 'no-sequence':
      return 'No sequence begins above this. Name one behind of.';
    case 'unknown-sequence':
      return meant(`There is no sequence called ${shown(why.name)} on this page.`, why.nearest);
    case 'no-case':
      return why.cases === 0
        ? `${why.name} has no case ${why.number}: there are only the defaults, case 0.`
        : `${why.name} has no case ${why.number}: cases go from 0 (the defaults) to ${why.cases}.`;
    case 'unknown-language':
      return `There are no words in ${shown(why.language)}: ${list(why.known)} are known.`;
    case 'has-errors':
      return `${why.name} has an error, and its readings would be wrong. Mend it first; till then this stays as it is.`;
    case 'not-run':
      return `${why.name} can't be run to its end, so that there is nothing to put here. This stays as it is.`;
    case 'too-long':
      return `${why.name} has more steps than a page is given. This stays as it is.`;
    case 'by-hand':
      return 'Somebody has written in this inset, and nothing of it is thrown away unasked. Move what is to be kept out of it, and empty it; then it is filled again.';
    case 'lost-end':
      return `This seems to be filled already and to have lost its closing comment. Put ${END_COMMENT} below what was filled in, or delete that.`;
  }
}

const END_COMMENT = closingMark();
const READ_AT: Readonly<Record<Looked, string>> = {
  ...{ setting: 'setting', counter: 'counter', result: 'result', carriage: 'carriage', parked: 'carriage' },
  ...{ bell: 'bell', overflow: 'result', overdraw: 'result' },
};

const count = (n: number, thing: string): string => `${n} ${thing}${n === 1 ? '' : 's'}`;
const range = (thing: string, highest: number): string =>
  highest === 1 ? `${thing} 1 alone` : `${thing}s 1 to ${highest}`;
const turns = (n: number): string => (n === 1 ? 'the turn' : `${n} turns`);
const nth = (turn: number): string => (turn === 0 ? 'A turn' : `Turn ${turn}`);
const positionText = (position: number): string => (position === 0 ? 'its place out of gear' : `position ${position}`);
const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** A number that a line has room for: no register shows more than twenty figures. */
export const shortNumber = (number: string): string => cutNumber(number, 'figures');

/** What a found word looks like in a message, however odd it is. */
const shown = (text: string): string => `“${cleanText(text)}”`;

function shorterMessage({ count: written, effort, steps, shorter }: FactsOf<'shorter-sequence'>): string {
  const these = written === 1 ? 'This step takes' : `These ${written} steps take`;
  const cost = `an effort of ${effort.cost} (${workText(effort)})`;
  if (steps.length === 0) return `${these} ${cost} and end where they began: leave them out.`;
  return `${these} ${cost}. The same is done with ${shorter.cost} (${workText(shorter)}): ${stepsText(steps)}.`;
}

const workText = ({ turns: made, shifts, levers }: Effort): string =>
  [
    made > 0 ? count(made, 'turn') : '',
    shifts > 0 ? count(shifts, 'shift') : '',
    levers > 0 ? `${count(levers, 'lever')} moved` : '',
  ]
    .filter(Boolean)
    .join(', ');

function syntaxMessage(problem: TextError['problem']): string {
  switch (problem.is) {
    case 'not-a-step':
      return `${shown(problem.found)} is not a step.${problem.nearest ? ` Did you mean ${problem.nearest}?` : ''}`;
    case 'not-a-line':
      return `${shown(problem.found)} is not a line of a machine.${problem.nearest ? ` Did you mean ${problem.nearest}?` : ''}`;
    case 'not-a-section':
      return problem.nearest
        ? `${shown(problem.found)} does not open a section. Did you mean ${problem.nearest}?`
        : `${problem.found} opens a section: write it at the start of a line.`;
    case 'no-section':
      return `${shown(problem.found)} stands in no section. Begin with use, machine or sequence.`;
    case 'wrong-section':
      return {
        machine: `${shown(problem.found)} is a line of a machine and has no place here.`,
        sequence: `${shown(problem.found)} is a step and belongs into a sequence.`,
        bench: 'found belongs into a bench record.',
      }[problem.belongs];
    case 'form': {
      const found =
        problem.found === '' ? `${problem.word} is not finished.` : `${shown(problem.found)} does not fit here.`;
      return `${found} It is written: ${problem.forms.join('  or  ')}`;
    }
    case 'keyword-as-name':
      return `${problem.found} is a word of the notation and can't be a name. Choose another, for instance ${problem.found}-1.`;
    case 'unclosed-text':
      return 'This text has no end. Put a quotation mark behind it; inside, write \\" for a quotation mark and \\\\ for \\.';
    case 'text-escape':
      return 'In a text, \\ stands only before a quotation mark or another \\. Write \\\\ for a single one; in a path write /.';
    case 'unclosed-brace':
      return 'This repeat is not closed. Put a } behind its last step.';
    case 'stray-brace':
      return 'There is no repeat that this } could close.';
    case 'line-too-long':
      return 'This line is longer than 4,000 characters and is not read. Break it up.';
    case 'too-deep':
      return 'This is nested too deep to be read. Take the inner part out into a sequence of its own.';
    case 'number-point':
      return 'A number has its point between digits: 0.5, not .5; 24, not 24.';
  }
}

function fileMessage(path: string, why: FileProblem): string {
  const named = shown(path);
  switch (why) {
    case 'missing':
      return `There is no file ${named}. Paths start from the folder of this file.`;
    case 'outside':
      return `${named} lies outside the folder that is being checked and is not read. Move it inside.`;
    case 'not-relative':
      return `${named} is not a path from the folder of this file. Write it with / and without a drive or address.`;
    case 'folder':
      return `${named} is a folder. Name a file in it.`;
    case 'unreadable':
      return `${named} can't be read. Is somebody else's permission needed?`;
    case 'too-large':
      return `${named} is larger than 16 MB and is not read. Split it.`;
    case 'not-text':
      return `${named} is not text in UTF-8 and is not read. Save it as UTF-8.`;
  }
}

function profileMessage(problem: ProfileProblem): string {
  switch (problem.is) {
    case 'out-of-range':
      return problem.lowest === problem.highest
        ? `${problem.line}: only ${problem.lowest} can stand here.`
        : `${problem.line}: a whole number from ${problem.lowest} to ${problem.highest} is needed here.`;
    case 'missing':
      return `The machine has no ${problem.line} line: it needs setting and result.`;
    case 'reach-below-setting':
      return 'The tens carry reaches less far than the levers: give reach at least as many places as setting.';
    case 'result-below-setting':
      return 'The result has fewer places than there are levers: give it at least as many.';
    case 'carriage-past-result':
      return 'The carriage has more positions than the result has places.';
    case 'divide-needs-lever':
      return 'Automatic division needs a drive lever: subtract lever, half-step or lift.';
    case 'twice':
      return `${problem.line} is written twice. Keep one of the lines.`;
    case 'no-such-line':
      return `A machine has no line ${shown(problem.line)} that could be dropped.`;
  }
}

function argumentsMessage(why: Extract<Facts, { code: 'wrong-arguments' }>['why']): string {
  switch (why.is) {
    case 'too-many':
      return `${why.name} takes ${count(why.takes, 'number')}, and ${why.given} ${why.given === 1 ? 'is' : 'are'} given. The step is left out.`;
    case 'not-whole':
      return `${shortNumber(why.number)} has a point, and a whole number is needed here. The step is left out.`;
    case 'value-with-at':
      return `${shortNumber(why.number)} has a point: it goes to its decimal marker and takes no at. Nothing is moved.`;
    case 'out-of-range':
      return `${shortNumber(why.number)} is not a number from ${why.lowest} to ${why.highest.toLocaleString('en-US')}. The step is left out.`;
    case 'divide-to':
      return `The carriage stands in position ${why.position}, left of position ${why.to} already. The step is left out.`;
  }
}

const NO_DEVICE: Readonly<Record<Device, string>> = {
  mode: 'no drive lever',
  count: 'no count lever',
  'auto-clear': 'no button that clears the levers',
  'auto-divide': 'no automatic division',
  dial: 'no wheels that can be set by hand in the result',
  'transfer result': 'no back transfer from the result',
  'transfer counter': 'no back transfer from the counter',
  'shift out': 'no place out of gear for its carriage',
  'half steps': 'no half places on its carriage',
  counter: 'no counter',
  bell: 'no bell',
  subtract: 'no way to subtract',
};

function tooLongMessage(what: Extract<Facts, { code: 'too-long' }>['what'], limit: number): string {
  const most = limit.toLocaleString('en-US');
  switch (what) {
    case 'steps':
      return `The sequence has more than ${most} steps by now. The run ends here: what follows has no readings.`;
    case 'turns':
      return `The sequence has made more than ${most} turns by now. The run ends here: what follows has no readings.`;
    case 'nesting':
      return `repeat and run lie inside one another more than ${most} deep. The run ends here: what follows has no readings.`;
    case 'findings':
      return `There ${limit === 1 ? 'is 1 more finding' : `are ${most} more findings`} in this file. Mend the ones above first.`;
    case 'file-steps':
      return `The sequences of this file take more than ${most} steps together: from here on they are not run. Move some to another file.`;
    case 'file-turns':
      return `The sequences of this file make more than ${most} turns together: from here on they are not run. Move some to another file.`;
  }
}

function differsMessage(differs: Differs): string {
  switch (differs.is) {
    case 'register': {
      const wheel = differs.place === undefined ? '' : ` The first wheel that differs is in place ${differs.place}.`;
      return `The ${differs.register} reads ${differs.reading}, not ${shortNumber(differs.expected)}.${wheel}`;
    }
    case 'carriage':
      return `The carriage stands in ${positionText(differs.reading)}, not in position ${shortNumber(differs.expected)}.`;
    case 'bell':
      return 'The bell does not ring in the step before.';
    case 'overflow':
      return 'The result does not overflow in the step before.';
    case 'overdraw':
      return 'The result does not go below zero in the step before.';
    case 'parked':
      return 'The carriage is not out of gear.';
  }
}

const GOAL_PROBLEM: Readonly<Record<GoalProblem, string>> = {
  'divides-by-zero': 'This goal has no value: it divides by zero.',
  'root-of-negative': 'This goal has no value: there is no square root of a negative number.',
  'power-not-whole': 'This goal has no value: a power must be a whole number; for a root write sqrt( ).',
  'too-large': 'This goal has more figures than can be reckoned with here (2,000).',
  'unknown-name': 'This goal has no value: it names a parameter that does not exist.',
};

const ENGAGED = {
  subtract: 'the drive stands at subtract',
  minus: 'the count lever stands at minus',
  'auto-clear': 'auto-clear is on',
  'auto-divide': 'auto-divide is on',
} as const;

/** Behind the message of what was noticed in several rounds of a step. */
export const roundsText = (rounds: number): string => `So it is in ${rounds} rounds; this is the first.`;

/** Why another place is named beside a finding. */
export const relatedText: Readonly<Record<Related['why'], string>> = {
  'switched-on': 'It was switched on here.',
  'out-of-gear': 'The carriage went out of gear here.',
  'in-the-sequence': 'It happens at this step of the other sequence.',
};

/** A severity in a line of the terminal. */
export const severityText: Readonly<Record<Severity, string>> = {
  error: 'error',
  warning: 'warning',
  information: 'information',
  hint: 'hint',
};

/** One reading: `result 9999990000`, `no bell`. */
export function lookText({ what, shown }: { readonly what: Looked; readonly shown: Look['shown'] | Told }): string {
  if (shown === true) return what;
  if (shown === false) return `no ${what}`;
  return what === 'carriage' && shown === 0 ? 'carriage out of gear' : `${what} ${shown}`;
}
