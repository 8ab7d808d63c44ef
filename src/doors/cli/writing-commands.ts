import { Argument, type Command, Option } from 'commander'
import { jobKinds, questions } from '../../writing/new/questions.ts'
import { type FormatOptions, format } from './format.ts'
import { lsp } from './lsp.ts'
import { type NewOptions, newCommand } from './new.ts'
import { type Paper, type Program, papers } from './program.ts'
import type { Surroundings } from './surroundings.ts'
import { watch } from './watch.ts'

interface WatchOptions {
  readonly draft: boolean
  readonly out: string
  readonly paper?: Paper
}

/** What helps whoever writes in an editor of his own. */
export function addWritingCommands(
  command: Command,
  program: Program,
  surroundings: Surroundings,
  finish: (status: number) => void,
): void {
  const files = () => new Argument('<files...>', 'Procedures, folders of procedures, or patterns.')

  const making = command
    .command('new')
    .description('Begin a procedure. What no option says is asked.')
    .argument('[target]', 'Its file, or the folder for it. Without one: procedures/.')
    .action(async (target: string | undefined, options: NewOptions) =>
      finish(await newCommand(target, options, surroundings)),
    )
  for (const question of questions) {
    if (question.takes === 'yes or no')
      making
        .option(question.flag, question.asks)
        .option(question.flag.replace('--', '--no-'), `Not so: no ${question.flag.slice(2)}.`)
    else if (question.takes === 'choice')
      making.addOption(new Option(`${question.flag} <kind>`, question.asks).choices(jobKinds))
    else making.option(`${question.flag} <${question.takes === 'names' ? 'names' : 'words'}>`, question.asks)
  }
  command
    .command('format')
    .description('Lay out front matter and blocks as usual. Prose and remarks stay.')
    .addArgument(files())
    .option('--check', 'Say which files are laid out otherwise, and change none.', false)
    .action((names: string[], options: FormatOptions) => finish(format(names, options, surroundings)))
  command
    .command('watch')
    .description('Build, then build again whatever is saved. Ctrl-C ends it.')
    .addArgument(files())
    .option('--out <folder>', 'Folder to write into.', 'out')
    .addOption(
      new Option('--paper <size>', 'Paper of the prints. Without it, what the library says, or else a4.').choices(
        papers,
      ),
    )
    .option('--draft', 'Write drafts too, marked NOT FOR USE.', false)
    .action(async (names: string[], { paper, ...options }: WatchOptions) =>
      finish(
        await watch(names, { ...options, paper: paper ?? null, format: 'text', timings: false }, program, surroundings),
      ),
    )
  command
    .command('lsp')
    .description('For editors: answer in the Language Server Protocol over standard input and output.')
    .option('--stdio', 'What it does anyway. Editors like to say so.', false)
    .action(async () => finish(await lsp(program.version)))
}
