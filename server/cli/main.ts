/** The command line. Exit codes: 0 clean, 1 something found, 2 it could not run. */
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { MECHANISMS, MOST_PLACES } from '../machine/index.js';
import { METHODS } from '../planning/order.js';
import { SEVERITIES } from '../sequence/findings.js';
import { MACHINE_KIND_NAMES } from '../service/starter/kinds.js';
import { TASKS } from '../service/starter/tasks.js';
import { STARTER_LANGUAGES } from '../service/starter/wording/index.js';
import { DEFAULT_SHEET, FIGURE_CHOICES, PAPERS, SHEET_KINDS } from '../sheets/model.js';
import { SHEET_LANGUAGES } from '../sheets/wording/index.js';
import { ADAPT_FORMATS, type AdaptOptions, adapt } from './adapt.js';
import { BENCH_LOG_FORMATS, type BenchLogOptions, benchLog } from './bench-log.js';
import { CHECK_FORMATS, type CheckOptions, check } from './check.js';
import { COVERAGE_FORMATS, type CoverageOptions, coverage } from './coverage.js';
import { DIAGNOSE_FORMATS, type DiagnoseOptions, diagnose } from './diagnose.js';
import { CannotRun } from './files.js';
import { type FormatOptions, format } from './format.js';
import { choicesText, type NewOptions, newFile } from './new.js';
import { PLAN_FORMATS, type PlanOptions, plan } from './plan.js';
import { type ProveOptions, prove } from './prove.js';
import { SHEET_FORMATS, type SheetOptions, sheet } from './sheet.js';
import { harmless, harmlessLines, openTerminal, type Terminal } from './terminal.js';
import { TRACE_FORMATS, type TraceOptions, trace } from './trace.js';
import { type WeaveOptions, weave } from './weave.js';

/** Put in when the program is bundled. */
declare const CRANKNOTE_VERSION: string;

const NAMES = `
A file whose name begins with a hyphen goes behind --:
  cranknote check -- -old.crank
`;

const example = (text: string): string => `\nExample:\n  ${text}\n`;

function caseNumber(text: string): number {
  if (!/^\d{1,6}$/.test(text)) throw new InvalidArgumentError('A case is a whole number; 0 means the defaults.');
  return Number(text);
}

/** A quotient or a root that does not end may be wanted with as many decimals as the longest register has places. */
function decimals(text: string): number {
  if (/^\d{1,2}$/.test(text) && Number(text) <= MOST_PLACES) return Number(text);
  throw new InvalidArgumentError(`Decimals are a whole number from 0 to ${MOST_PLACES}.`);
}

const PLANNING = `
The sequence is printed as a whole file, ready to be checked: it brings its
machine with it. Without --file the machines are looked for in the .crank files
of this folder, and where there are none, among those that come with the program.

Examples:
  cranknote plan "24.5 * 17.2" --on pinwheel-9
  cranknote plan "sqrt(2)" --on halfstep-10 --decimals 5 --explain
  cranknote plan "355 / 113" --on all
  cranknote plan "sum(x), sum(x^2), sum(x*y)" --data trays.csv --on large-20
  cranknote plan "19.5 * 3.2 + 7.25 * 4" --file machines.crank --on desk-9 > area.crank

A calculation that begins with a minus goes behind --:
  cranknote plan --on pinwheel-9 -- "-3 + 12.5"
`;

const SHEETS = `
One sheet goes to standard output; of several, or of a PDF, --out says where.
PDF is made by a browser built on Chromium, if one is installed.

Examples:
  cranknote sheet samples/stores-products.crank --sequence seed-count > seed-count.html
  cranknote sheet samples/school-exercises.crank --kind exercise --out print
  cranknote sheet samples/school-exercises.crank --kind key --format pdf --language de --out print
`;

const WEAVING = `
Below a block marked crank, a comment on a line of its own says what is to stand
there; weave puts it below the comment, and a closing comment behind it:

  <!-- crank: readings -->              what each step changes, as a table
  <!-- crank: steps in de -->           the steps in sentences
  <!-- crank: figure of bulb-order -->  the machine at the end, as a picture
  <!-- crank: cases -->                 the numbers of all cases
  <!-- crank: cautions -->              what to be careful about

What stands outside stays as it is, to the letter. What somebody has written
between the two comments is not thrown away: it is reported.

Examples:
  cranknote weave manuals/
  cranknote weave manuals/ --check
  cranknote weave - < draft.md > page.md
`;

const BEGINNING = `
The file needs no other: the machine stands in it, and the sequence is right for
that machine. Change both until they are yours.

Examples:
  cranknote new --machine pinwheel --task multiply > area.crank
  cranknote new --machine half-step --task bench --language de --out proof.crank
`;

const PROVING = `
The sequence is printed as a whole file, ready to be checked, edited and printed
as a bench sheet. Without --file the machines are looked for in the .crank files
of this folder, and where there are none, among those that come with the program.

Examples:
  cranknote prove pinwheel-9 > proof.crank
  cranknote prove halfstep-10 --mechanism tens-carry
  cranknote prove desk-8 --file machines.crank --out desk-8-proof.crank
`;

function commands(terminal: Terminal, done: (code: number) => void): Command {
  const program = new Command('cranknote')
    .description('Runs crank sequences on a model of the machine, and says what is wrong with them.')
    .version(CRANKNOTE_VERSION, '--version', 'print the version')
    .helpOption('--help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .addHelpText('after', example('cranknote check manuals/'))
    .addHelpText('after', NAMES)
    .configureOutput({ writeOut: terminal.out, writeErr: (text) => terminal.err(harmlessLines(text)) })
    .exitOverride();

  program
    .command('new')
    .description('write a file to begin with: a machine of some kind, and a sequence on it')
    .addOption(new Option('--machine <kind>', 'the kind of machine').choices(MACHINE_KIND_NAMES).makeOptionMandatory())
    .addOption(new Option('--task <task>', 'what the sequence does').choices(TASKS).makeOptionMandatory())
    .addOption(
      new Option('--language <language>', 'of its comments and titles').choices(STARTER_LANGUAGES).default('en'),
    )
    .option('--out <file>', 'write it to this file, which must not be there yet')
    .option('--force', 'write over the file if it is there')
    .addHelpText('after', () => choicesText() + BEGINNING)
    .action((options: NewOptions) => done(newFile(options, terminal)));

  program
    .command('check')
    .description('check files: what is wrong with the text, and what the machine would do wrong')
    .argument(
      '[paths...]',
      'files, folders (all .crank and .md files below, links left aside) or patterns; - reads standard input',
    )
    .addOption(new Option('--format <format>', 'how to print findings').choices(CHECK_FORMATS).default('text'))
    .addOption(new Option('--level <level>', 'what makes the check fail').choices(SEVERITIES).default('warning'))
    .addHelpText('after', example('cranknote check manuals/ "exercises/*.crank" --level error'))
    .action((paths: string[], options: CheckOptions) => done(check(paths, options, terminal, CRANKNOTE_VERSION)));

  program
    .command('trace')
    .description('show what the machine reads after every step')
    .argument('<paths...>', 'files, folders or patterns; - reads standard input')
    .option('--sequence <name>', 'only this sequence')
    .option('--case <number>', 'only this case; 0 means the defaults', caseNumber)
    .option('--fault <fault>', 'beside it what a machine with this fault shows: "carry-lost result 5 add", say')
    .addOption(
      new Option('--format <format>', 'for a person or for another program').choices(TRACE_FORMATS).default('text'),
    )
    .addHelpText('after', example('cranknote trace samples/stores-products.crank --sequence seed-count'))
    .action((paths: string[], options: TraceOptions) => done(trace(paths, options, terminal)));

  program
    .command('coverage')
    .description('tell which faults of the machine a sequence would catch, and what would catch the others')
    .argument('[paths...]', 'files, folders or patterns; - reads standard input')
    .option('--on <machine>', 'only sequences on this machine')
    .option('--sequence <name>', 'only this sequence')
    .option('--together', 'take all sequences on a machine as one script')
    .addOption(
      new Option('--format <format>', 'for a person, for another program, or a page with a map of the machine')
        .choices(COVERAGE_FORMATS)
        .default('text'),
    )
    .addHelpText('after', example('cranknote coverage samples/restorer-proofs.crank --on drum-8 --together'))
    .action((paths: string[], options: CoverageOptions) => done(coverage(paths, options, terminal)));

  program
    .command('format')
    .description('set indentation and blanks; comments, blank lines and grouping marks stay')
    .argument('[paths...]', 'files, folders or patterns; - formats standard input to standard output')
    .option('--check', 'change nothing, show what would change, and fail if anything would')
    .addHelpText('after', example('cranknote format manuals/ --check'))
    .action(async (paths: string[], options: FormatOptions) => done(await format(paths, options, terminal)));

  program
    .command('weave')
    .description('fill the insets of Markdown pages from their sequences, and refresh what has gone stale')
    .argument(
      '[paths...]',
      'pages, folders (all .md files below) or patterns; - weaves standard input to standard output',
    )
    .option('--check', 'change nothing, say what is stale, and fail if anything is')
    .addHelpText('after', WEAVING)
    .action(async (paths: string[], options: WeaveOptions) => done(await weave(paths, options, terminal)));

  program
    .command('plan')
    .description('write the sequence that works something out on a machine with the least effort')
    .argument('<expression>', 'numbers, + - * / ^, parentheses and sqrt( ); with --data sums, parted by commas')
    .option('--on <machine>', 'for this machine; all compares every machine')
    .option('--file <file>', 'the file that describes the machine, or that uses the one that does')
    .option('--decimals <number>', 'so many decimals where the answer does not end', decimals)
    .addOption(new Option('--method <method>', 'this way of dividing or taking a root').choices(METHODS))
    .option('--round', 'round the last decimal instead of cutting off')
    .addOption(new Option('--register <register>', 'where the answer is to stand').choices(['counter', 'result']))
    .option('--explain', 'say in comments what was decided, and why')
    .option('--name <name>', 'what the sequence is called')
    .addOption(
      new Option('--format <format>', 'for a person or for another program').choices(PLAN_FORMATS).default('text'),
    )
    .option('--data <file>', 'sums over the rows of a table, whose first row names the columns; - reads standard input')
    .addHelpText('after', PLANNING)
    .action((expression: string, options: PlanOptions) => done(plan(expression, options, terminal)));

  program
    .command('adapt')
    .description('carry the sequences of a file over to another machine, or say why that can not be done')
    .argument('<file>', 'a .crank file or a Markdown page; - reads standard input')
    .requiredOption('--to <machine>', 'the machine to carry over to')
    .option('--file <file>', 'the file that describes it, where the first does not see it')
    .option('--sequence <name>', 'only this sequence')
    .option('--write', 'put them in the place of the old ones; nothing is written if one can not be carried over')
    .addOption(
      new Option('--format <format>', 'for a person or for another program').choices(ADAPT_FORMATS).default('text'),
    )
    .addHelpText('after', example('cranknote adapt samples/stores-products.crank --to drum-8 --sequence seed-count'))
    .action((file: string, options: AdaptOptions) => done(adapt(file, options, terminal)));

  program
    .command('sheet')
    .description('print what the sequences of a file are for: operating instructions, exercises, keys, bench sheets')
    .argument('<file>', 'a .crank file or a Markdown page; - reads standard input')
    .option('--sequence <name>', 'only this sequence')
    .addOption(new Option('--kind <kind>', 'what is printed').choices(SHEET_KINDS).default(DEFAULT_SHEET.kind))
    .addOption(
      new Option('--format <format>', 'a page for a browser, text, or PDF')
        .choices(SHEET_FORMATS)
        .default(DEFAULT_SHEET.format),
    )
    .addOption(new Option('--language <language>', 'in which language').choices(SHEET_LANGUAGES).default('en'))
    .addOption(new Option('--paper <paper>', 'for which paper').choices(PAPERS).default(DEFAULT_SHEET.paper))
    .addOption(
      new Option('--figures <figures>', 'the machine drawn at every step, where a stage ends, or not at all')
        .choices(FIGURE_CHOICES)
        .default(DEFAULT_SHEET.figures),
    )
    .option('--out <folder>', 'write NAME.KIND.html (.md, .pdf) into this folder, one file a sequence')
    .addHelpText('after', SHEETS)
    .action(async (file: string, options: SheetOptions) => done(await sheet(file, options, terminal)));

  program
    .command('diagnose')
    .description('say which single faults explain what was found at the bench, and what to try next')
    .argument('[paths...]', 'files, folders or patterns; - reads standard input')
    .addOption(
      new Option('--format <format>', 'for a person or for another program').choices(DIAGNOSE_FORMATS).default('text'),
    )
    .addHelpText('after', example('cranknote diagnose samples/restorer-bench.crank'))
    .action((paths: string[], options: DiagnoseOptions) => done(diagnose(paths, options, terminal)));

  program
    .command('bench-log')
    .description(
      'put several bench records of one script side by side: what was mended, what got worse, what is proved',
    )
    .argument('<file>', 'a .crank file or a Markdown page; - reads standard input')
    .addOption(
      new Option('--format <format>', 'for a person, for another program, or a page')
        .choices(BENCH_LOG_FORMATS)
        .default('text'),
    )
    .addOption(new Option('--language <language>', 'of the page').choices(SHEET_LANGUAGES).default('en'))
    .addHelpText('after', example('cranknote bench-log samples/restorer-bench.crank --format html > log.html'))
    .action((file: string, options: BenchLogOptions) => done(benchLog(file, options, terminal)));

  program
    .command('prove')
    .description('write the sequence that catches every fault a machine can have, with as little effort as it can')
    .argument('<machine>', 'the machine to prove')
    .option('--file <file>', 'the file that describes the machine, or that uses the one that does')
    .addOption(new Option('--mechanism <part>', 'only this part of the machine').choices(MECHANISMS))
    .option('--out <file>', 'write it to this file, which must not be there yet')
    .addHelpText('after', PROVING)
    .action((machine: string, options: ProveOptions) => done(prove(machine, options, terminal)));

  program
    .command('step')
    .description('step through a sequence for an editor: a debug adapter that speaks the Debug Adapter Protocol')
    .requiredOption('--stdio', 'over standard input and output')
    .addHelpText('after', example('cranknote step --stdio'))
    .action(startServer);

  program
    .command('serve')
    .description('serve an editor: a language server that speaks the Language Server Protocol')
    .requiredOption('--stdio', 'over standard input and output')
    .addHelpText('after', example('cranknote serve --stdio'))
    .action(startServer);

  return program;
}

/** A bundle of its own beside this one, so that a check does not have to load it. It reads what is wanted off the command. */
async function startServer(): Promise<void> {
  const server: string = './server-node.cjs';
  await import(server);
}

async function main(): Promise<void> {
  const terminal = openTerminal();
  try {
    await commands(terminal, (code) => {
      process.exitCode = code;
    }).parseAsync();
  } catch (error) {
    if (error instanceof CommanderError) process.exitCode = error.exitCode === 0 ? 0 : 2;
    else if (error instanceof CannotRun) {
      terminal.err(`${harmless(error.message)}\n`);
      process.exitCode = 2;
    } else {
      const message = error instanceof Error ? error.message : String(error);
      terminal.err(
        `Cranknote met a mistake of its own: ${harmless(message)}\nPlease report it, with the file if you can.\n`,
      );
      process.exitCode = 2;
    }
  }
}

void main();
