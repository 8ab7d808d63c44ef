import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Diagnostic, type Editor, edited, positionAt, startEditor, type TextEdit } from './editor.ts'

const file = 'procedures/idler/idler.md'
const text = `---
number: KRQ-TX-001
title: Change a return idler
revision: A
status: for-review
date: 2026-03-02
---

The idler is changed. 𝄞 äöü.

\`\`\`yaml
roles: [fitter, supervisor]
states:
  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor }
\`\`\`

## Tighten {#tighten}

\`\`\`yaml
by: fitter
\`\`\`

1. Tighten the bolts. {#bolts}
   \`\`\`yaml
   torque:
     bolts: 78 to 96 N·m, 4 × M14 8.8, dry, cross, passes 50 100 %, with wrench
   \`\`\`
2. Look at the bolts again; they have [=bolts]. {#look}
`

const shared = {
  'witnessmark.yaml': 'site: Kestrel Ridge Quarry\n',
  'shared/roles/workshop.yaml':
    'source: Invented.\nitems:\n  fitter: { who: plant fitter }\n  supervisor: { who: shift supervisor }\n',
  'shared/tools/workshop.yaml':
    'source: Invented.\nitems:\n  wrench: { name: torque wrench, measures: torque, range: 40 to 200 N·m, resolution: 1 N·m, accuracy: ± 4 % }\n',
}

const names = (found: readonly Diagnostic[]) => found.map(({ code }) => code)

describe('an editor', () => {
  let editor: Editor
  let last: readonly Diagnostic[] = []
  const at = (words: string, now = text) => ({
    textDocument: { uri: editor.uri(file) },
    position: positionAt(now, now.indexOf(words) + words.length),
  })
  const whole = () => ({ textDocument: { uri: editor.uri(file) } })

  beforeAll(async () => {
    editor = await startEditor(
      { ...shared, [file]: text },
      {
        textDocument: {
          completion: { completionItem: { snippetSupport: true } },
          documentSymbol: { hierarchicalDocumentSymbolSupport: true },
        },
      },
    )
  })
  afterAll(() => editor?.remove())

  it('is told what is found when a text is opened and when it is typed into', async () => {
    last = await editor.open(file, text)
    expect(names(last)).not.toContain('schema/unknown-key')
    const found = await editor.type(file, text.replace('   torque:', '   torqe:'))
    const unknown = found.find(({ code }) => code === 'schema/unknown-key')
    expect(unknown).toMatchObject({
      severity: 1,
      range: { start: { line: 24, character: 3 }, end: { line: 24, character: 8 } },
    })
    expect(unknown?.message).toContain('torque')
    expect(names(await editor.type(file, text))).toEqual(names(last))
  })

  it('counts letters as editors do', async () => {
    const found = await editor.type(file, text.replace('äöü.', 'äöü. {#x}'))
    const place = found.find(({ code }) => code === 'syntax/misplaced-id')?.range.start
    expect(place).toEqual({ line: 8, character: 'The idler is changed. 𝄞 äöü. '.length })
    await editor.type(file, text)
  })

  it('gets offers at the cursor', async () => {
    const typed = text.replace('   torque:\n', '   ho\n   torque:\n')
    await editor.type(file, typed)
    const { items } = await editor.ask<{
      items: readonly { label: string; textEdit: TextEdit; documentation?: { value: string } }[]
    }>('textDocument/completion', at('   ho', typed))
    const hold = items.find(({ label }) => label === 'hold')
    expect(hold?.documentation?.value).toContain('Work stops until')
    expect(edited(typed, hold === undefined ? [] : [hold.textEdit])).toContain('   hold:\n     ')
    await editor.type(file, text)
  })

  it('gets the schema of a key, both units of a figure and the page of a finding', async () => {
    const hover = async (words: string, now = text) =>
      (await editor.ask<{ contents: { value: string } } | null>('textDocument/hover', at(words, now)))?.contents.value
    expect(await hover('   torq')).toContain('A joint that is tightened')
    expect(await hover('bolts: 78 t')).toMatch(/78 to 96 N·m \(\d+ to \d+ lbf·ft\)/)
    expect(await hover('with wren')).toContain('torque wrench')
    expect(await hover('[=bol')).toContain('torque')
    const typed = text.replace('   torque:', '   torqe:')
    await editor.type(file, typed)
    expect(await hover('   torq', typed)).toContain('schema/unknown-key')
    expect(await hover('The idl', typed)).toBeUndefined()
    await editor.type(file, text)
  })

  it('goes to where a name gets its meaning', async () => {
    const [here] = await editor.ask<readonly { uri: string; range: object }[]>('textDocument/definition', at('[=bolt'))
    expect(here).toMatchObject({ uri: editor.uri(file), range: { start: { line: 25, character: 5 } } })
    const [there] = await editor.ask<readonly { uri: string; range: object }[]>(
      'textDocument/definition',
      at('with wrench'),
    )
    expect(there).toMatchObject({
      uri: editor.uri('shared/tools/workshop.yaml'),
      range: { start: { line: 2, character: 2 } },
    })
    expect(
      await editor.ask('textDocument/references', { ...at('[=bolt'), context: { includeDeclaration: true } }),
    ).toHaveLength(2)
  })

  it('renames, or says why not', async () => {
    const { changes } = await editor.ask<{ changes: Record<string, TextEdit[]> }>('textDocument/rename', {
      ...at('[=bolt'),
      newName: 'cover-bolts',
    })
    const renamed = edited(text, changes[editor.uri(file)] ?? [])
    expect(renamed).toBe(text.replace('     bolts:', '     cover-bolts:').replace('[=bolts]', '[=cover-bolts]'))
    expect(await editor.ask('textDocument/prepareRename', at('{#bolt'))).toMatchObject({ placeholder: 'bolts' })
    await expect(editor.ask('textDocument/rename', { ...at('{#bolt'), newName: 'look' })).rejects.toThrow(
      /already the name of a step/,
    )
    await expect(editor.ask('textDocument/prepareRename', at('The idl'))).rejects.toThrow(/no name/)
  })

  it('makes the change that a finding offers, and the finding is gone', async () => {
    const typed = text.replace('```yaml\n   torque', '```yml\n   torque')
    const found = await editor.type(file, typed)
    const fence = found.find(({ code }) => code === 'syntax/unknown-fence')
    expect(fence).toBeDefined()
    const actions = await editor.ask<
      readonly { title: string; isPreferred?: boolean; edit: { changes: Record<string, TextEdit[]> } }[]
    >('textDocument/codeAction', { ...whole(), range: fence?.range, context: { diagnostics: found } })
    expect(actions[0]).toMatchObject({ title: 'Mark the block', isPreferred: true })
    const mended = edited(typed, actions[0]?.edit.changes[editor.uri(file)] ?? [])
    expect(mended).toBe(text)
    expect(names(await editor.type(file, mended))).toEqual(names(last))
    const certain = { diagnostics: [], only: ['source.fixAll'] }
    expect(
      await editor.ask('textDocument/codeAction', {
        ...whole(),
        range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
        context: certain,
      }),
    ).toEqual([])
  })

  it('gets the text laid out', async () => {
    const typed = text.replace('roles: [fitter, supervisor]', 'roles:   [ fitter,supervisor ]')
    await editor.type(file, typed)
    const edits = await editor.ask<readonly TextEdit[]>('textDocument/formatting', {
      ...whole(),
      options: { tabSize: 2, insertSpaces: true },
    })
    expect(edited(typed, edits)).toBe(text)
    await editor.type(file, text)
    expect(await editor.ask('textDocument/formatting', { ...whole(), options: {} })).toEqual([])
  })

  it('gets outline, foldings and colours', async () => {
    const symbols = await editor.ask<readonly { name: string; children: readonly { name: string }[] }[]>(
      'textDocument/documentSymbol',
      whole(),
    )
    expect(symbols.map(({ name, children }) => [name, children.map((child) => child.name)])).toEqual([
      ['1 Tighten', ['1.1 Tighten the bolts.', '1.2 Look at the bolts again; they have .']],
    ])
    expect(await editor.ask('textDocument/foldingRange', whole())).toContainEqual({ startLine: 22, endLine: 26 })
    const { data } = await editor.ask<{ data: readonly number[] }>('textDocument/semanticTokens/full', whole())
    expect(data.length % 5).toBe(0)
    expect(data.length).toBeGreaterThan(100)
  })

  it('notices a change of the library, saved or not', async () => {
    const tools = 'shared/tools/workshop.yaml'
    const next = editor.told(file)
    writeFileSync(join(editor.folder, tools), shared[tools].replace('40 to 200', '150 to 200'))
    expect(names(await next)).not.toEqual(names(last))
    const back = editor.told(file)
    void editor.open(tools, shared[tools])
    expect(names(await back)).toEqual(names(last))
  })

  it('says goodbye', async () => {
    expect(await editor.ask('shutdown', undefined)).toBeNull()
    await editor.connection.sendNotification('exit')
    expect(await editor.exited).toBe(0)
    expect(editor.stderr()).toBe('')
  })
})

describe('an editor that gets everything wrong', () => {
  let editor: Editor
  beforeAll(async () => {
    editor = await startEditor({ ...shared, [file]: text })
    await editor.open(file, text)
  })
  afterAll(() => editor?.remove())
  const questions = [
    'completion',
    'hover',
    'definition',
    'references',
    'documentHighlight',
    'prepareRename',
    'rename',
    'documentSymbol',
    'foldingRange',
    'semanticTokens/full',
    'formatting',
    'codeAction',
  ]

  it('is told so, and is answered all the same', async () => {
    await expect(editor.ask('textDocument/unheardOf', {})).rejects.toThrow(/Unhandled method/)
    const places = [
      { line: 1e9, character: 1e9 },
      { line: -5, character: -1 },
      { line: 0.5, character: Number.NaN },
      null,
      'here',
      undefined,
    ]
    const files = [
      editor.uri(file),
      'file:///etc/passwd',
      editor.uri('../../outside.md'),
      'untitled:one',
      'http://example.com/a.md',
      '',
      7,
      null,
    ]
    for (const method of questions)
      for (const uri of files)
        for (const position of places)
          await editor
            .ask(`textDocument/${method}`, {
              textDocument: { uri },
              position,
              newName: position,
              range: { start: position, end: position },
              context: {},
            })
            .catch((error: Error) => {
              expect(error.message).not.toMatch(/at .*\.js:\d+/)
            })
    await expect(
      editor.ask('textDocument/hover', {
        textDocument: { uri: editor.uri(file) },
        position: { line: 11, character: 2 },
      }),
    ).resolves.not.toBeNull()
  })

  it('may open what is no procedure, change what is not open and close it twice', async () => {
    const { connection } = editor
    const open = (uri: string, words: string) =>
      connection.sendNotification('textDocument/didOpen', {
        textDocument: { uri, languageId: 'markdown', version: 1, text: words },
      })
    await open('untitled:one', '## A')
    await open('file:///etc/passwd', 'root')
    await open(editor.uri('README.md'), '# Read me')
    await connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: editor.uri('never.md'), version: 2 },
      contentChanges: [{ text: 'x' }],
    })
    await connection.sendNotification('textDocument/didClose', { textDocument: { uri: editor.uri('never.md') } })
    await connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri: 'untitled:x', type: 1 }] })
    await connection.sendNotification('$/setTrace', { value: 'off' })
    expect(await editor.ask('textDocument/documentSymbol', { textDocument: { uri: editor.uri(file) } })).toHaveLength(3)
  })

  it('may type half of everything', async () => {
    for (let length = 0; length < text.length; length += 97) {
      await editor.type(file, text.slice(0, length))
      await editor.ask('textDocument/completion', {
        textDocument: { uri: editor.uri(file) },
        position: positionAt(text.slice(0, length), length),
      })
    }
    expect(await editor.type(file, text)).toBeDefined()
  })

  it('may hang up in the middle', async () => {
    editor.server.stdin?.end()
    expect(await editor.exited).toBe(1)
    expect(editor.stderr()).toBe('')
  })
})
