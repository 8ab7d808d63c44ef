import { Argument, Command, CommanderError, Option } from 'commander'
import { build } from './build.ts'
import { check } from './check.ts'
import { explain } from './explain.ts'
import { type Paper, type Program, papers } from './program.ts'
import { type Format, formats } from './report.ts'
import type { Surroundings } from './surroundings.ts'

interface BuildOptions {
  readonly format: Format
  readonly draft: boolean
  readonly out: string
  readonly paper?: Paper
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
    await command.parseAsync(typed, { from: 'user' })
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
    .description('Checks workshop procedures and makes printed checklists, tablet pages and step files from them.')
    .version(program.version, '--version', 'Print the version.')
    .helpOption('--help', 'Print this help.')
    .helpCommand(false)
    .exitOverride()
    .configureOutput({
      writeOut: surroundings.print,
      writeErr: surroundings.say,
      getOutHelpWidth: () => surroundings.columns ?? 100,
      getErrHelpWidth: () => surroundings.columns ?? 100,
    })
  const files = () => new Argument('<files...>', 'Procedures, folders of procedures, or patterns.')
  const format = () => new Option('--format <format>', 'How findings are printed.').choices(formats).default('text')

  command
    .command('check')
    .description('Say what is wrong with procedures.')
    .addArgument(files())
    .addOption(format())
    .action((names: string[], options: { readonly format: Format }) =>
      finish(check(names, options.format, program, surroundings)),
    )
  command
    .command('build')
    .description('Check procedures, then write the outputs of those without an error.')
    .addArgument(files())
    .option('--out <folder>', 'Folder to write into.', 'out')
    .addOption(
      new Option('--paper <size>', 'Paper of the checklist; else what the library says, else a4.').choices(papers),
    )
    .addOption(format())
    .option('--draft', 'Write drafts too, marked NOT FOR USE.', false)
    .action(async (names: string[], options: BuildOptions) =>
      finish(await build(names, { ...options, paper: options.paper ?? null }, program, surroundings)),
    )
  command
    .command('explain')
    .description('Print the page of a kind of finding; without a name, list them all.')
    .argument('[name]', 'The name printed with a finding, such as torque/unit-missing.')
    .action((name: string | undefined) => finish(explain(name, program, surroundings)))
  return command
}
