import { Argument, Command, CommanderError, Option } from 'commander'
import { type PdfStandardChoice, pdfStandards, readVariant, unitCounts } from '../../outputs/checklist/print-choices.ts'
import { build } from './build.ts'
import { type CalcOptions, calc } from './calc.ts'
import { check } from './check.ts'
import { convert } from './convert.ts'
import { type DeskOptions, desk } from './desk.ts'
import { explain } from './explain.ts'
import { type FixOptions, fix } from './fix.ts'
import { type JudgeReadingOptions, judgeReading } from './judge-reading.ts'
import { type Paper, type PrintOptions, type Program, papers } from './program.ts'
import { type ReadBackOptions, readBack } from './read-back.ts'
import { type Format, formats } from './report.ts'
import type { Surroundings } from './surroundings.ts'
import { addWritingCommands } from './writing-commands.ts'

interface CheckOptions extends FixOptions {
  readonly fix: boolean
}

interface BuildOptions {
  readonly format: Format
  readonly draft: boolean
  readonly out: string
  readonly paper?: Paper
  readonly timings: boolean
  readonly variant: readonly string[]
  readonly units: PrintOptions['units']
  readonly pdfStandard: PdfStandardChoice
  readonly fillable: boolean
}

/**
 * The command `witnessmark`. Gives the exit status: 0 clean, 1 an error was found or something could not be made, 2 wrong use.
 */
export async function runCommand(
  typed: readonly string[],
  surroundings: Surroundings,
  program: Program,
): Promise<number> {
  let status = 0
  const command = commandLine(program, surroundings, (exit) => {
    status = exit
  })
  try {
    await command.parseAsync(typed.map(withTrueMinus), { from: 'user' })
    return status
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2
    const reason = error instanceof Error ? error.message.split('\n')[0] : String(error)
    surroundings.say(`witnessmark itself failed (${reason}). This is a fault of the program: please report it.\n`)
    return 1
  }
}

function commandLine(program: Program, surroundings: Surroundings, finish: (status: number) => void): Command {
  const command = new Command('witnessmark')
    .description('Checks workshop procedures, and makes printed checklists, tablet pages and step files from them.')
    .version(program.version, '--version', 'Print the version.')
    .helpOption('--help', 'Print this help.')
    .helpCommand(false)
    .exitOverride()
    .configureHelp({ optionDescription: describeOption })
    .configureOutput({
      writeOut: surroundings.print,
      writeErr: surroundings.say,
      getOutHelpWidth: () => surroundings.columns ?? 100,
      getErrHelpWidth: () => surroundings.columns ?? 100,
    })
  const files = () => new Argument('<files...>', 'Procedures, folders of procedures, or patterns.')
  const format = () => new Option('--format <format>', 'How findings are printed.').choices(formats).default('text')

  command.commandsGroup('Every day:')
  command
    .command('check')
    .description('Look for faults. Nothing is written.')
    .addArgument(files())
    .addOption(format())
    .option('--fix', 'Make the changes that are certain, and say each.', false)
    .option('--dry-run', 'With --fix: say the changes, and make none.', false)
    .action((names: string[], options: CheckOptions) => {
      if (options.fix) return finish(fix(names, options, program, surroundings))
      if (!options.dryRun) return finish(check(names, options.format, program, surroundings))
      surroundings.say('error: option --dry-run is for --fix: add --fix, or leave it out.\n')
      finish(2)
    })
  command
    .command('build')
    .description('Check, then write the outputs of every procedure that has no error.')
    .addArgument(files())
    .option('--out <folder>', 'Folder to write into.', 'out')
    .addOption(
      new Option('--paper <size>', 'Paper of the prints. Without it, what the library says, or else a4.').choices(
        papers,
      ),
    )
    .addOption(format())
    .option('--draft', 'Write drafts too, marked NOT FOR USE.', false)
    .option('--timings', 'Say at the end how long each output took.', false)
    .addOption(
      new Option(
        '--variant <name=value>',
        'Write a checklist for this machine too, such as wheel-stud=m22. May stand more than once.',
      )
        .argParser((typed: string, before: readonly string[]) => [...before, typed])
        .default([], 'one for all, with marks'),
    )
    .addOption(
      new Option('--units <count>', 'In how many units limits are printed.').choices(unitCounts).default('two'),
    )
    .addOption(
      new Option('--pdf-standard <name>', 'What the checklist claims to be: PDF/A-3a or PDF/UA-1.')
        .choices(pdfStandards)
        .default('a-3a'),
    )
    .option('--fillable', 'Write a checklist to fill in on a screen too.', false)
    .action(async (names: string[], { variant: typed, units, pdfStandard, fillable, ...options }: BuildOptions) => {
      const read = readVariant(typed)
      if ('wrong' in read) {
        surroundings.say(`error: ${read.wrong}\n`)
        return finish(2)
      }
      const print = { standard: pdfStandard, units, variant: read.variant, fillable }
      finish(await build(names, { ...options, paper: options.paper ?? null, print }, program, surroundings))
    })
  command
    .command('read-back')
    .description('Judge a checklist that was filled in on a screen, say what is missing, write its record.')
    .argument('<pdf>', 'A filled checklist-fillable.pdf.')
    .option('--steps <file>', 'The step file that the checklist must be made from.')
    .addOption(new Option('--out <folder>', 'Folder to write the record into.').default('.', 'this folder'))
    .action(async (file: string, options: ReadBackOptions) =>
      finish(await readBack(file, options, program, surroundings)),
    )
  command
    .command('explain')
    .description('Say what a finding means, with an example. Without a name: list them all.')
    .argument('[name]', 'The name printed with a finding, such as torque/unit-missing.')
    .action((name: string | undefined) => finish(explain(name, program, surroundings)))
  command.commandsGroup('To write:')
  addWritingCommands(command, program, surroundings, finish)
  command
    .command('desk')
    .description('Write in the browser, with what the technician gets beside the text. Ctrl-C ends it.')
    .addArgument(new Argument('[folder]', 'The library, or a folder in it.').default('.', 'this folder'))
    .addOption(new Option('--port <number>', 'Port on this computer.').default('0', 'any that is free'))
    .option('--no-browser', 'Print the address, and open no browser.')
    .action(async (folder: string, options: DeskOptions) => finish(await desk(folder, options, surroundings)))
  command.commandsGroup('At the bench:')
  addBenchCommands(command, program, surroundings, finish)
  return command
}

/** What an option does, what it takes, and what holds without it. */
function describeOption({ description, argChoices, defaultValue, defaultValueDescription }: Option): string {
  const without = defaultValueDescription ?? (typeof defaultValue === 'string' ? defaultValue : '')
  const sentences = [
    description,
    argChoices === undefined ? '' : `One of: ${argChoices.join(', ')}.`,
    without === '' ? '' : `Without it: ${without}.`,
  ]
  return sentences.filter(Boolean).join(' ')
}

/** What is asked at the bench, without any procedure. */
function addBenchCommands(
  command: Command,
  program: Program,
  surroundings: Surroundings,
  finish: (status: number) => void,
): void {
  const json = () => new Option('--json', 'Print JSON.').default(false)

  command
    .command('convert')
    .description('Convert a quantity or a limit. A limit is rounded so that no bad part passes.')
    .argument('<quantity>', 'A quantity or limit in quotes, such as "max 3/8 in".')
    .argument('[unit]', 'The unit wanted, such as mm. Without one: every unit of its kind.')
    .addOption(json())
    .action((quantity: string, unit: string | undefined, options: { readonly json: boolean }) =>
      finish(convert(quantity, unit, options, surroundings)),
    )
  command
    .command('judge-reading')
    .description('Judge a reading by a limit: in (exit status 0), out or in doubt (1), unreadable (2).')
    .argument('<limit>', 'The limit in quotes, such as "0.10 to 0.20 mm".')
    .argument('<reading>', 'What was read, such as "0.006 in". Without a unit: in that of the limit.')
    .option('--uncertainty <quantity>', 'What the instrument may be off to either side, such as "0.01 mm".')
    .addOption(json())
    .action((limit: string, reading: string, options: JudgeReadingOptions) =>
      finish(judgeReading(limit, reading, options, surroundings)),
    )
  command
    .command('calc')
    .description('Work out one thing of the trade, with its formula and source. Without a name: list them all.')
    .argument('[name]', 'The calculator, such as bolt-torque.')
    .argument('[inputs...]', 'Each as name=value, in quotes where there are blanks: "diameter=1/2 in".')
    .option('--list', 'List every calculator.', false)
    .addOption(json())
    .action((name: string | undefined, inputs: string[], options: CalcOptions) =>
      finish(calc(name, inputs, options, program, surroundings)),
    )
}

/** `-5 °C` is a reading: no option begins with a digit. */
function withTrueMinus(word: string): string {
  return word.replace(/^-(?=\.?\p{N})/u, '\u2212')
}
