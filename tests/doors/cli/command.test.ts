import { afterEach, describe, expect, it } from 'vitest'
import { findProcedures } from '../../../src/doors/cli/find-procedures.ts'
import { seen, toyProgram, workplace } from './toy-program.ts'

let place = workplace({})
afterEach(() => place.remove())

const document = (number: string, more = '') => `---\nnumber: ${number}\nrevision: A\n---\n# Title\n\n${more}\n`
const use = (files: Record<string, string>) => {
  place.remove()
  place = workplace(files)
  return place
}

describe('witnessmark check', () => {
  it('prints findings of files, folders and patterns, and ends with one sentence', async () => {
    const { run } = use({
      'procedures/a/a.md': document('KRQ-1', 'It is WRONG.'),
      'procedures/a/README.md': 'WRONG',
      'procedures/b/b.md': document('KRQ-2', 'A bit ODD.'),
      'procedures/shared/fragments/f.md': 'WRONG',
      'procedures/.draft/x.md': 'WRONG',
    })
    expect(seen(await run(['check', 'procedures']))).toMatchInlineSnapshot(`
      "procedures/a/a.md:7:7 error toy/wrong
        7 │ It is WRONG.
          │       ^^^^^
        It says WRONG.
        → Take it out.

      procedures/b/b.md:7:7 warning toy/odd
        7 │ A bit ODD.
          │       ^^^
        It says ODD.
        → Take it out.

      ———
      2 procedures checked: 1 error and 1 warning found.
      ——— exit 1"
    `)
    expect(seen(await run(['check', 'procedures/b/b.md', './procedures/b']))).toMatchInlineSnapshot(`
      "procedures/b/b.md:7:7 warning toy/odd
        7 │ A bit ODD.
          │       ^^^
        It says ODD.
        → Take it out.

      ———
      1 procedure checked: 1 warning found.
      ——— exit 0"
    `)
    expect((await run(['check', 'procedures/*/a.md', 'procedures/b'])).err).toBe(
      '2 procedures checked: 1 error and 1 warning found.\n',
    )
  })

  it('prints nothing but JSON or SARIF when asked for it', async () => {
    const { run } = use({ 'a.md': document('KRQ-1', 'It is WRONG.'), 'clean.md': document('KRQ-2') })
    const json = JSON.parse((await run(['check', '.', '--format', 'json'])).out)
    expect(json).toMatchObject({
      procedures: ['a.md', 'clean.md'],
      count: { error: 1 },
      findings: [{ file: 'a.md', line: 7, column: 7 }],
    })
    const sarif = JSON.parse((await run(['check', 'a.md', '--format', 'sarif'])).out)
    expect(sarif.runs[0].tool.driver.rules[0]).toMatchObject({
      id: 'toy/wrong',
      fullDescription: { text: 'The word WRONG is wrong.' },
    })
    const none = await run(['check', 'clean.md', '--format=json'])
    expect(JSON.parse(none.out).findings).toEqual([])
    expect(none.status).toBe(0)
  })

  it('paints on a terminal only', async () => {
    const { run } = use({ 'a.md': document('KRQ-1', 'It is WRONG.') })
    expect((await run(['check', 'a.md'], toyProgram, true)).out).toContain('\u001b[31m')
    expect((await run(['check', 'a.md'])).out).not.toContain('\u001b')
  })

  it('says what was used wrongly, with status 2, and still looks at the rest', async () => {
    const { run } = use({
      'procedures/belt.md': document('KRQ-1'),
      'notes.txt': '',
      'empty/readme.md': '',
      'shared/fragments/f.md': '',
    })
    const wrong = [
      [],
      ['chekc', 'belt.md'],
      ['check'],
      ['check', '--fromat', 'json', 'procedures'],
      ['check', '--format', 'xml', 'procedures'],
      ['check', 'procedures/blet.md', 'procedures'],
      ['check', 'notes.txt'],
      ['check', 'empty'],
      ['check', 'nothing-*.md'],
      ['check', 'shared/fragments/f.md'],
      ['build', 'none'],
      ['explain', 'toy/worng'],
      ['explain', 'od'],
      ['explain', 'entirely-else'],
    ]
    const sentences: string[] = []
    for (const typed of wrong) {
      const result = await run(typed)
      expect(result.status, typed.join(' ')).toBe(2)
      expect(result.out).toBe('')
      sentences.push(`> witnessmark ${typed.join(' ')}\n${typed.length === 0 ? '(the help)\n' : result.err}`)
    }
    expect(sentences.join('')).toMatchInlineSnapshot(`
      "> witnessmark 
      (the help)
      > witnessmark chekc belt.md
      error: unknown command 'chekc'
      (Did you mean check?)
      > witnessmark check
      error: missing required argument 'files'
      > witnessmark check --fromat json procedures
      error: unknown option '--fromat'
      (Did you mean --format?)
      > witnessmark check --format xml procedures
      error: option '--format <format>' argument 'xml' is invalid. Allowed choices are text, json, sarif.
      > witnessmark check procedures/blet.md procedures
      procedures/blet.md: there is no such file or folder. Did you mean procedures/belt.md?
      1 procedure checked: nothing found.
      > witnessmark check notes.txt
      notes.txt: a procedure is a Markdown file, and its name ends in .md.
      > witnessmark check empty
      empty: there is no procedure (a file ending in .md) in this folder.
      > witnessmark check nothing-*.md
      nothing-*.md: no procedure (a file ending in .md) matches this pattern.
      > witnessmark check shared/fragments/f.md
      shared/fragments/f.md: this is a fragment. It is looked at with the procedures that include it; name one of those.
      > witnessmark build none
      none: there is no such file or folder.
      > witnessmark explain toy/worng
      There is no kind of finding named toy/worng. Did you mean toy/wrong?
      > witnessmark explain od
      There is no kind of finding named od. Did you mean toy/odd?
      > witnessmark explain entirely-else
      There is no kind of finding named entirely-else. Type “witnessmark explain” to see every name.
      "
    `)
  })

  it('tells when the compiler itself falls over, and goes on', async () => {
    const { run } = use({ 'a.md': document('KRQ-1', 'BREAK'), 'b.md': document('KRQ-2', 'ODD') })
    expect(seen(await run(['check', '.']))).toMatchInlineSnapshot(`
      "b.md:7:1 warning toy/odd
        7 │ ODD
          │ ^^^
        It says ODD.
        → Take it out.

      ———
      a.md: witnessmark itself failed on this procedure, so it was not checked (the toy fell over). This is a fault of the program: please report it together with the file.
      1 of 2 procedures checked: 1 warning found.
      ——— exit 1"
    `)
  })

  it('does not pass over a folder that cannot be read', () => {
    const { folder } = use({ 'procedures/a/a.md': '', 'procedures/b/b.md': '' })
    // Permissions do not bind root, so the reading of one folder fails here instead.
    const found = findProcedures(['procedures'], folder, (path) => {
      if (path.endsWith('procedures')) return ['b', 'a']
      if (path.endsWith('/b')) throw Object.assign(new Error('EACCES'), { code: 'EACCES' })
      return ['a.md']
    })
    expect(found.files.map((file) => file.slice(folder.length))).toEqual(['/procedures/a/a.md'])
    expect(found.complaints).toEqual([])
    expect(found.unread).toEqual(['procedures/b: the folder could not be read, so what is in it was not looked at.'])
  })
})

describe('witnessmark build', () => {
  it('writes what is clean, takes away what is stale, and says what to open first', async () => {
    const { run, put, list, read } = use({
      'procedures/a.md': document('KRQ-1'),
      'procedures/b.md': document('KRQ-2', 'ODD'),
    })
    expect(seen(await run(['build', 'procedures']))).toMatchInlineSnapshot(`
      "procedures/b.md:7:1 warning toy/odd
        7 │ ODD
          │ ^^^
        It says ODD.
        → Take it out.

      ———
      procedures/a.md → out/KRQ-1-A (page.html, steps.json)
      procedures/b.md → out/KRQ-2-A (page.html, steps.json)
      2 of 2 procedures written to out. Found: 1 warning.
      Open out/index.html first.
      ——— exit 0"
    `)
    expect(list('out')).toEqual([
      'KRQ-1-A/page.html',
      'KRQ-1-A/steps.json',
      'KRQ-2-A/page.html',
      'KRQ-2-A/steps.json',
      'index.html',
    ])

    put('out/KRQ-1-A/record of 3 March.json', 'signed')
    put('procedures/a.md', document('KRQ-1', 'WRONG'))
    expect(seen(await run(['build', 'procedures']))).toMatchInlineSnapshot(`
      "procedures/a.md:7:1 error toy/wrong
        7 │ WRONG
          │ ^^^^^
        It says WRONG.
        → Take it out.

      procedures/b.md:7:1 warning toy/odd
        7 │ ODD
          │ ^^^
        It says ODD.
        → Take it out.

      ———
      procedures/a.md: 1 error, so nothing of it was written.
      procedures/a.md: the older build in out/KRQ-1-A was taken away, so that nobody works from it.
      procedures/b.md → out/KRQ-2-A (page.html, steps.json)
      1 of 2 procedures written to out. Found: 1 error and 1 warning.
      Open out/index.html first.
      ——— exit 1"
    `)
    expect(list('out')).toEqual([
      'KRQ-1-A/record of 3 March.json',
      'KRQ-2-A/page.html',
      'KRQ-2-A/steps.json',
      'index.html',
    ])
    expect(read('out/index.html')).toBe('KRQ-2-A')
  })

  it('leaves an older revision alone when the new one has an error', async () => {
    const { run, put, list } = use({ 'a.md': document('KRQ-1') })
    await run(['build', 'a.md'])
    put('a.md', document('KRQ-1', 'WRONG').replace('revision: A', 'revision: B'))
    await run(['build', 'a.md'])
    expect(list('out')).toContain('KRQ-1-A/steps.json')
    put('a.md', document('KRQ-1', 'WRONG').replace('revision: A\n', ''))
    await run(['build', 'a.md'])
    expect(list('out')).not.toContain('KRQ-1-A/steps.json')
  })

  it('leaves drafts out unless asked for them, and takes away what stands from before', async () => {
    const { run, list } = use({ 'a.md': document('KRQ-1').replace('revision: A', 'revision: A\nstatus: draft') })
    await run(['build', 'a.md', '--draft'])
    expect(list('out')).toEqual(['KRQ-1-A/page.html', 'KRQ-1-A/steps.json', 'index.html'])
    expect(seen(await run(['build', 'a.md']))).toMatchInlineSnapshot(`
      "———
      a.md: a draft, so nothing of it was written. With --draft it is written, marked NOT FOR USE.
      a.md: the older build in out/KRQ-1-A was taken away, so that nobody works from it.
      0 of 1 procedure written to out. Found: nothing.
      ——— exit 0"
    `)
    expect(list('out')).toEqual(['index.html'])
  })

  it('writes neither of two procedures with one number, nor one whose number is a path', async () => {
    const { run, list } = use({
      'a.md': document('KRQ-1'),
      'b.md': document('krq-1'),
      'c.md': document('../../etc/KRQ-3'),
      'd.md': document('KRQ-4'),
    })
    expect(seen(await run(['build', '.']))).toMatchInlineSnapshot(`
      "b.md:2:9 error document/number-taken-twice
        2 │ number: krq-1
          │         ^^^^^
        a.md carries number krq-1, revision A, too. Whoever asks for it could be handed either.
        → Give one of them another number or revision.
        see a.md:2:9 The other one stands here.
        2 │ number: KRQ-1
          │         ^^^^^

      ———
      a.md: b.md carries the same number and revision, so neither of them was written.
      b.md: 1 error, so nothing of it was written.
      c.md: number “../../etc/KRQ-3” with revision “A” cannot name a folder, so nothing of it was written.
      d.md → out/KRQ-4-A (page.html, steps.json)
      1 of 4 procedures written to out. Found: 1 error.
      Open out/index.html first.
      ——— exit 1"
    `)
    expect(list('out')).toEqual(['KRQ-4-A/page.html', 'KRQ-4-A/steps.json', 'index.html'])
  })

  it('makes the other outputs when one cannot be made, and says so with its status', async () => {
    const { run, list } = use({ 'a.md': document('KRQ-1') })
    const noPrint = {
      ...toyProgram,
      makeOutputs: async () => ({
        files: [{ name: 'steps.json', content: '{}' }],
        complaints: ['no checklist was made: the typesetter is not installed for this machine.'],
      }),
    }
    expect(seen(await run(['build', 'a.md'], noPrint))).toMatchInlineSnapshot(`
      "———
      a.md → out/KRQ-1-A (steps.json)
      a.md: no checklist was made: the typesetter is not installed for this machine.
      1 of 1 procedure written to out. Found: nothing.
      Open out/index.html first.
      ——— exit 1"
    `)
    expect(list('out')).toEqual(['KRQ-1-A/steps.json', 'index.html'])
  })

  it('goes on when the outputs of one procedure make the program fall over', async () => {
    const { run, list } = use({ 'a.md': document('KRQ-1'), 'b.md': document('KRQ-2') })
    const falling = {
      ...toyProgram,
      makeOutputs: (...given: Parameters<typeof toyProgram.makeOutputs>) =>
        given[0].file === 'a.md' ? Promise.reject(new Error('no page')) : toyProgram.makeOutputs(...given),
    }
    expect(seen(await run(['build', '.'], falling))).toMatchInlineSnapshot(`
      "———
      a.md: witnessmark itself failed while making the outputs, so nothing of it was written (no page). This is a fault of the program: please report it together with the file.
      b.md → out/KRQ-2-A (page.html, steps.json)
      1 of 2 procedures written to out. Found: nothing.
      Open out/index.html first.
      ——— exit 1"
    `)
    expect(list('out')).toEqual(['KRQ-2-A/page.html', 'KRQ-2-A/steps.json', 'index.html'])
  })

  it('says in one sentence that the output folder is a file', async () => {
    const { run, list } = use({ 'a.md': document('KRQ-1'), out: 'a file' })
    expect(seen(await run(['build', 'a.md']))).toMatchInlineSnapshot(`
      "———
      a.md: out/KRQ-1-A could not be written: a file stands where a folder is wanted. Move it away, or name another folder with --out.
      0 of 1 procedure written to out. Found: nothing.
      ——— exit 1"
    `)
    expect(list('.')).toEqual(['a.md', 'out'])
  })
})

describe('witnessmark explain', () => {
  it('prints the page of a kind by its full name or the last part of it, and lists the names', async () => {
    const { run } = use({})
    expect((await run(['explain', 'toy/wrong'])).out).toMatchInlineSnapshot(`
      "toy/wrong

      The word WRONG is wrong.

      Reported

          # A

          \`\`\`yaml
          WRONG: yes
          \`\`\`

      Fine

          right
      "
    `)
    expect((await run(['explain', 'wrong'])).out).toBe((await run(['explain', 'toy/wrong'])).out)
    expect((await run(['explain'])).out).toBe('toy/odd    The word ODD is odd.\ntoy/wrong  The word WRONG is wrong.\n')
  })
})

describe('witnessmark by itself', () => {
  it('prints its help and its version', async () => {
    const { run } = use({})
    expect((await run(['--help'])).out).toMatchInlineSnapshot(`
      "Usage: witnessmark [options] [command]

      Checks workshop procedures, and makes printed checklists, tablet pages and step files from them.

      Options:
        --version                                  Print the version.
        --help                                     Print this help.

      Every day:
        check [options] <files...>                 Look for faults. Nothing is written.
        build [options] <files...>                 Check, then write the outputs of every procedure that
                                                   has no error.
        read-back [options] <pdf>                  Judge a checklist that was filled in on a screen, say
                                                   what is missing, write its record.
        explain [name]                             Say what a finding means, with an example. Without a
                                                   name: list them all.

      To write:
        new [options] [target]                     Begin a procedure. What no option says is asked.
        format [options] <files...>                Lay out front matter and blocks as usual. Prose and
                                                   remarks stay.
        watch [options] <files...>                 Build, then build again whatever is saved. Ctrl-C ends
                                                   it.
        lsp [options]                              For editors: answer in the Language Server Protocol
                                                   over standard input and output.
        desk [options] [folder]                    Write in the browser, with what the technician gets
                                                   beside the text. Ctrl-C ends it.

      At the bench:
        convert [options] <quantity> [unit]        Convert a quantity or a limit. A limit is rounded so
                                                   that no bad part passes.
        judge-reading [options] <limit> <reading>  Judge a reading by a limit: in (exit status 0), out or
                                                   in doubt (1), unreadable (2).
        calc [options] [name] [inputs...]          Work out one thing of the trade, with its formula and
                                                   source. Without a name: list them all.
      "
    `)
    expect((await run(['build', '--help'])).out).toMatchInlineSnapshot(`
      "Usage: witnessmark build [options] <files...>

      Check, then write the outputs of every procedure that has no error.

      Arguments:
        files                   Procedures, folders of procedures, or patterns.

      Options:
        --out <folder>          Folder to write into. Without it: out.
        --paper <size>          Paper of the prints. Without it, what the library says, or else a4. One
                                of: a4, letter.
        --format <format>       How findings are printed. One of: text, json, sarif. Without it: text.
        --draft                 Write drafts too, marked NOT FOR USE.
        --timings               Say at the end how long each output took.
        --variant <name=value>  Write a checklist for this machine too, such as wheel-stud=m22. May stand
                                more than once. Without it: one for all, with marks.
        --units <count>         In how many units limits are printed. One of: one, two. Without it: two.
        --pdf-standard <name>   What the checklist claims to be: PDF/A-3a or PDF/UA-1. One of: a-3a, ua-1.
                                Without it: a-3a.
        --fillable              Write a checklist to fill in on a screen too.
        --help                  Print this help.
      "
    `)
    expect(await run(['--version'])).toEqual({ status: 0, out: '0.0.0\n', err: '' })
  })
})
