import { defaultKeymap, history, historyKeymap } from '@codemirror/commands'
import { markdown } from '@codemirror/lang-markdown'
import { yamlFrontmatter, yamlLanguage } from '@codemirror/lang-yaml'
import { indentUnit, syntaxHighlighting } from '@codemirror/language'
import { search, searchKeymap } from '@codemirror/search'
import { EditorState, type Extension } from '@codemirror/state'
import { drawSelection, EditorView, highlightSpecialChars, keymap, type ViewUpdate } from '@codemirror/view'
import { classHighlighter } from '@lezer/highlight'
import { blockColours } from './block-colours.ts'
import { flawMarks } from './flaws.ts'

export interface EditorHooks {
  readonly changed: (update: ViewUpdate) => void
  readonly markPressed: (lineStart: number) => void
  readonly more: readonly Extension[]
}

/**
 * The text as it is written. Tab is left alone: it leads out of the text, so that nobody who uses the keys alone is
 * caught in it; lines are moved right and left with Ctrl-] and Ctrl-[.
 */
export function makeEditor(parent: HTMLElement, nonce: string, hooks: EditorHooks): EditorView {
  return new EditorView({ parent, state: stateFor('', nonce, hooks) })
}

export function stateFor(text: string, nonce: string, hooks: EditorHooks): EditorState {
  return EditorState.create({
    doc: text,
    extensions: [
      EditorView.cspNonce.of(nonce),
      flawMarks(hooks.markPressed),
      history(),
      drawSelection(),
      highlightSpecialChars(),
      search({ top: true }),
      indentUnit.of('  '),
      EditorState.tabSize.of(3),
      EditorView.lineWrapping,
      EditorView.contentAttributes.of({ tabindex: '0', 'aria-label': 'Text of the procedure. Tab leads out of it.' }),
      keymap.of([...defaultKeymap, ...historyKeymap, ...searchKeymap]),
      yamlFrontmatter({
        content: markdown({ codeLanguages: (info) => (/^ya?ml\b/.test(info) ? yamlLanguage : null) }),
      }),
      syntaxHighlighting(classHighlighter),
      blockColours,
      ...hooks.more,
      EditorView.updateListener.of(hooks.changed),
    ],
  })
}
