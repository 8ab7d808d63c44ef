import { RangeSetBuilder } from '@codemirror/state'
import { Decoration, type DecorationSet, type EditorView, ViewPlugin, type ViewUpdate } from '@codemirror/view'

const block = Decoration.line({ class: 'is-block' })
const fence = Decoration.line({ class: 'is-block is-fence' })
const front = Decoration.line({ class: 'is-front' })
const phase = Decoration.line({ class: 'is-phase' })

/** Tints blocks and front matter, and sets headings of phases larger, in what can be seen. */
export const blockColours = ViewPlugin.fromClass(
  class {
    decorations: DecorationSet
    constructor(view: EditorView) {
      this.decorations = coloured(view)
    }
    update(update: ViewUpdate) {
      if (update.docChanged || update.viewportChanged) this.decorations = coloured(update.view)
    }
  },
  { decorations: (plugin) => plugin.decorations },
)

function coloured(view: EditorView): DecorationSet {
  const builder = new RangeSetBuilder<Decoration>()
  const { doc } = view.state
  const { from, to } = view.viewport
  const kindOf = lineKinds(doc.line(1).text)
  const lines = doc.iterLines()
  // Whether a line is in a block, only the lines above it tell.
  for (let number = 1, start = 0; start <= to && !lines.next().done; number++) {
    const kind = kindOf(lines.value, number)
    if (kind !== null && start + lines.value.length >= from) builder.add(start, start, kind)
    start += lines.value.length + 1
  }
  return builder.finish()
}

/** Walks the lines from the top: a fence opens and closes; the first pair of `---` is the front matter. */
function lineKinds(firstLine: string) {
  let inFront = false
  let inBlock = false
  const hasFront = firstLine.trim() === '---'
  return (text: string, number: number): Decoration | null => {
    if (number === 1 && hasFront) {
      inFront = true
      return front
    }
    if (inFront) {
      if (text.trim() === '---') inFront = false
      return front
    }
    if (/^\s*(?:```|~~~)/.test(text)) {
      inBlock = !inBlock
      return fence
    }
    if (inBlock) return block
    return /^#{2,3} /.test(text) ? phase : null
  }
}
