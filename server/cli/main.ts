/** The command line. Exit codes: 0 clean, 1 something found, 2 it could not run. */
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { SEVERITIES } from '../sequence/findings.js';
import { CHECK_FORMATS, type CheckOptions, check } from './check.js';
import { CannotRun } from './files.js';
import { type FormatOptions, format } from './format.js';
import { harmless, harmlessLines, openTerminal, type Terminal } from './terminal.js';
import { TRACE_FORMATS, type TraceOptions, trace } from './trace.js';

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
    .addOption(
      new Option('--format <format>', 'for a person or for another program').choices(TRACE_FORMATS).default('text'),
    )
    .addHelpText('after', example('cranknote trace samples/stores-products.crank --sequence seed-count'))
    .action((paths: string[], options: TraceOptions) => done(trace(paths, options, terminal)));

  program
    .command('format')
    .description('set indentation and blanks; comments, blank lines and grouping marks stay')
    .argument('[paths...]', 'files, folders or patterns; - formats standard input to standard output')
    .option('--check', 'change nothing, show what would change, and fail if anything would')
    .addHelpText('after', example('cranknote format manuals/ --check'))
    .action(async (paths: string[], options: FormatOptions) => done(await format(paths, options, terminal)));

  program
    .command('serve')
    .description('serve an editor: a language server that speaks the Language Server Protocol')
    .requiredOption('--stdio', 'over standard input and output')
    .addHelpText('after', example('cranknote serve --stdio'))
    .action(async () => {
      // A bundle of its own beside this one, so that a check does not have to load it.
      const server: string = './server-node.cjs';
      await import(server);
    });

  return program;
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
