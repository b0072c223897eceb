/** Speed, as ratios in one run. Prints a table and judges nothing: what is fast enough is for a person to say. */
import { getLanguageService, TextDocument } from 'vscode-json-languageservice';
import { Parser } from '../../grammar/sections.js';
import type { SequenceSection } from '../../grammar/tree.js';
import { Library } from '../../server/sequence/library.js';
import { buildMachine } from '../../server/sequence/profiles.js';
import { reportFindings } from '../../server/sequence/report.js';
import { run } from '../../server/sequence/run.js';
import { answers } from './answers.js';
import { editing } from './editing.js';
import { pair, type Ratio } from './pairs.js';
import { planning } from './planning.js';
import { proving } from './proving.js';
import { crankText, jsonText, manualText, SCHEMA, soundText } from './texts.js';

const results: Ratio[] = [];

/** A run of single turns, with its trace and findings, against the bare arithmetic of the same turns. */
async function turns(): Promise<void> {
  const TURNS = 99_997;
  const source = `machine wide
  setting 10
  counter 20
  result 20
  carriage 10
sequence long on wide
  clear all
  set 9876543210
  shift to 5
${'  turn\n'.repeat(TURNS)}`;
  const file = new Parser().parse(source);
  const [machine, sequence] = file.sections.map(({ section }) => section);
  const profile = machine.kind === 'machine' ? buildMachine(machine, undefined).profile : undefined;
  if (!profile) throw new Error('the machine of the benchmark is not sound');
  const section = sequence as SequenceSection;
  const ours = () => {
    const done = run({ section, profile, values: new Map(), case: 0, resolve: () => undefined });
    if (done.tape.length !== TURNS + 3) throw new Error('the run broke off');
    return done.notices.findings(section, 'long', 0).length;
  };
  const setting = 9_876_543_210n;
  const formula = () => {
    let result = 0n;
    let counter = 0;
    const p = 4n;
    for (let i = 0; i < TURNS; i++) {
      result = (result + setting * 10n ** p) % 10n ** 20n;
      counter++;
    }
    return [result, counter];
  };
  const MODULUS = 10n ** 20n;
  const driven = setting * 10n ** 4n;
  const hoisted = () => {
    let result = 0n;
    let counter = 0;
    for (let i = 0; i < TURNS; i++) {
      result = (result + driven) % MODULUS;
      counter++;
    }
    return [result, counter];
  };
  results.push(await pair('run 100,000 turns : BigInt loop as written', ours, formula));
  results.push(await pair('run 100,000 turns : BigInt loop, powers taken out of it', ours, hoisted));
}

/** Checking a file that was never seen, against validating JSON of as many lines and bytes. */
async function check(lines: number): Promise<void> {
  const service = getLanguageService({});
  service.configure({
    validate: true,
    schemas: [{ uri: 'bench://schema', fileMatch: ['*'], schema: SCHEMA as never }],
  });
  let round = 0;
  const texts = Array.from({ length: 30 }, (_, i) => crankText(lines, i + 1));
  const jsons = texts.map((text, i) => jsonText(text, i + 1));
  const [text, json] = [texts[0], jsons[0]];
  console.log(
    `${lines} lines: ${text.length} bytes of notation, ${json.length} bytes of JSON in ${json.split('\n').length} lines`,
  );
  const before = (next: number) => {
    round = next;
  };
  const ours = () => {
    const library = new Library();
    library.set('bench.crank', texts[round % texts.length]);
    return reportFindings(library, library.check('bench.crank')).length;
  };
  const theirs = async () => {
    const document = TextDocument.create('bench://file.json', 'json', round, jsons[round % jsons.length]);
    const found = await service.doValidation(document, service.parseJSONDocument(document), {}, SCHEMA as never);
    if (found.length > 0) throw new Error('the JSON of the benchmark is not valid');
  };
  results.push(await pair(`check ${lines} lines : JSON language service`, ours, theirs, { before }));
}

type Check = typeof import('./checking.js').check;

/** What looking for cheaper steps adds to a check of a text that was never seen: `run.mjs` bundles a check without it. */
async function shorter(lines: number): Promise<void> {
  const [withIt, without] = await Promise.all(
    process.argv.slice(2, 4).map(async (file): Promise<Check> => (await import(file)).check),
  );
  const texts = [
    ['cheaper steps in most runs', (seed: number) => crankText(lines, seed)],
    ['as manuals are', (seed: number) => manualText(lines, seed)],
    ['nothing to find', () => soundText(lines)],
  ] as const;
  for (const [what, make] of texts) {
    let text = make(1);
    const name = `check with cheaper steps looked for : without, ${what} (${withIt(text) - without(text)} found)`;
    // Both get a text that neither has seen.
    const before = (round: number) => {
      text = make(2 + round);
    };
    const ours = () => withIt(text);
    const theirs = () => without(text);
    results.push(await pair(name, ours, theirs, { rounds: 41, warm: 12, before }));
  }
}

/** Time a line, from short files to long ones. */
async function growth(): Promise<void> {
  const timeOf = (lines: number) => {
    const text = crankText(lines);
    return () => {
      const library = new Library();
      library.set('bench.crank', text);
      return reportFindings(library, library.check('bench.crank')).length;
    };
  };
  const short = timeOf(1_000);
  const hundred = () => {
    for (let i = 0; i < 100; i++) short();
  };
  results.push(await pair('check 100,000 lines : 100 × 1,000 lines', timeOf(100_000), hundred, { rounds: 7, warm: 2 }));
}

async function main(): Promise<void> {
  await turns();
  await check(10_000);
  await shorter(10_000);
  await growth();
  results.push(...(await editing()));
  results.push(await proving());
  const width = Math.max(...results.map(({ name }) => name.length));
  console.log(`${'ours : theirs'.padEnd(width)}     ours   theirs   ratio  (lowest … highest)`);
  for (const { name, ours, theirs, ratio, lowest, highest } of results) {
    const ms = (n: number) => `${n.toFixed(1)} ms`.padStart(9);
    console.log(
      `${name.padEnd(width)}${ms(ours)}${ms(theirs)}   ${ratio.toFixed(2)}  (${lowest.toFixed(2)} … ${highest.toFixed(2)})`,
    );
  }
  console.log('\nplans for a machine with twenty places');
  for (const line of planning()) console.log(line);
  console.log('\nover the protocol, in a process of its own');
  for (const line of await answers()) console.log(line);
}

void main();
