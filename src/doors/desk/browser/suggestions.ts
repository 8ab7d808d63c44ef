import { autocompletion, type CompletionResult, closeCompletion, completionKeymap } from '@codemirror/autocomplete'
import type { Extension } from '@codemirror/state'
import { keymap } from '@codemirror/view'
import type { Suggestion } from '../../../writing/completion/suggestion.ts'
import { ask } from './ask.ts'

interface SuggestAnswer {
  readonly suggestions: readonly Suggestion[]
}

/**
 * What could be typed at the cursor, offered while somebody types in a block or asks with Ctrl-Space. Enter takes one,
 * Escape none; Tab leads out of the text as ever.
 */
export function suggestions(file: () => string): Extension {
  return [
    autocompletion({
      activateOnTyping: true,
      defaultKeymap: false,
      override: [
        async ({ pos, state, explicit }): Promise<CompletionResult | null> => {
          if (
            !explicit &&
            !/[\p{L}\p{N}-]$/u.test(state.doc.lineAt(pos).text.slice(0, pos - state.doc.lineAt(pos).from))
          )
            return null
          const asked = { file: file(), text: state.doc.toString(), offset: pos }
          const answer = await ask<SuggestAnswer>('suggest', asked).catch(() => null)
          const offered = answer?.suggestions ?? []
          const [first] = offered
          if (first === undefined) return null
          return {
            from: first.start,
            to: first.end,
            options: offered
              .filter(({ start }) => start === first.start)
              .map(({ label, detail, insert, caret }) => ({
                label,
                detail,
                apply: (view, _completion, from, to) =>
                  view.dispatch({
                    changes: { from, to, insert },
                    selection: { anchor: from + caret },
                    userEvent: 'input.complete',
                  }),
              })),
            validFor: /^[\p{L}\p{N}-]*$/u,
          }
        },
      ],
    }),
    keymap.of([...completionKeymap, { key: 'Tab', run: (view) => closeCompletion(view) && false }]),
  ]
}
