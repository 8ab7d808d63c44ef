import { type Extension, RangeSet, StateEffect, StateField, type Text } from '@codemirror/state'
import { Decoration, type DecorationSet, EditorView, GutterMarker, gutter } from '@codemirror/view'
import type { Severity } from '../../../findings/finding.ts'
import type { ShownFinding } from '../wire.ts'

/** The findings in the text as it stands now: their places move along with what is typed. */
export interface Flaw {
  readonly finding: ShownFinding
  readonly from: number
  readonly to: number
}

const setFlaws = StateEffect.define<readonly Flaw[]>()
const pointAt = StateEffect.define<{ readonly from: number; readonly to: number } | null>()

const worstFirst: readonly Severity[] = ['error', 'warning', 'advice']
const glyphs: Readonly<Record<Severity, string>> = { error: '×', warning: '!', advice: 'i' }

class Mark extends GutterMarker {
  readonly severity: Severity
  constructor(severity: Severity) {
    super()
    this.severity = severity
  }
  override eq(other: Mark) {
    return other.severity === this.severity
  }
  override toDOM() {
    const mark = document.createElement('span')
    mark.className = `cm-mark mark-${this.severity}`
    mark.textContent = glyphs[this.severity]
    return mark
  }
}

const marks: Readonly<Record<Severity, Mark>> = {
  error: new Mark('error'),
  warning: new Mark('warning'),
  advice: new Mark('advice'),
}

interface Shown {
  readonly flaws: readonly Flaw[]
  readonly underlined: DecorationSet
  readonly gutter: RangeSet<GutterMarker>
}

const nothing: Shown = { flaws: [], underlined: Decoration.none, gutter: RangeSet.empty }

const field = StateField.define<Shown>({
  create: () => nothing,
  update: (before, transaction) => {
    const set = transaction.effects.find((effect) => effect.is(setFlaws))
    if (set) return shownFor(set.value, transaction.newDoc)
    if (!transaction.docChanged) return before
    const { changes } = transaction
    return {
      flaws: before.flaws.map((flaw) => {
        const from = changes.mapPos(flaw.from, 1)
        return { ...flaw, from, to: Math.max(from, changes.mapPos(flaw.to, -1)) }
      }),
      underlined: before.underlined.map(changes),
      gutter: before.gutter.map(changes),
    }
  },
  provide: (self) => EditorView.decorations.from(self, (shown) => shown.underlined),
})

function shownFor(flaws: readonly Flaw[], doc: Text): Shown {
  const ranges = flaws
    .map((flaw) => ({ flaw, ...underlinedPart(flaw, doc) }))
    .filter(({ from, to }) => to > from)
    .map(({ flaw, from, to }) => Decoration.mark({ class: `cm-flaw is-${flaw.finding.severity}` }).range(from, to))
  const worst = new Map<number, Severity>()
  for (const { finding, from } of flaws) {
    const start = doc.lineAt(Math.min(from, doc.length)).from
    const before = worst.get(start)
    if (before === undefined || worstFirst.indexOf(finding.severity) < worstFirst.indexOf(before))
      worst.set(start, finding.severity)
  }
  const inGutter = [...worst].map(([start, severity]) => marks[severity].range(start))
  return { flaws, underlined: Decoration.set(ranges, true), gutter: RangeSet.of(inGutter, true) }
}

/** A place over many lines is marked in its first one: a whole phase in red helps nobody. */
function underlinedPart({ from, to }: Flaw, doc: Text) {
  const line = doc.lineAt(Math.min(from, doc.length))
  const end = Math.min(to, line.to)
  if (end > from) return { from, to: end }
  return { from: line.from + (line.text.length - line.text.trimStart().length), to: line.to }
}

const pointed = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update: (before, transaction) => {
    const effect = transaction.effects.find((one) => one.is(pointAt))
    if (!effect) return before.map(transaction.changes)
    const place = effect.value
    return place === null || place.to <= place.from
      ? Decoration.none
      : Decoration.set([Decoration.mark({ class: 'cm-pointed' }).range(place.from, place.to)])
  },
  provide: (self) => EditorView.decorations.from(self),
})

/** Marks under the words and in the gutter; `pressed` is told of the line of a mark that was pressed. */
export function flawMarks(pressed: (lineStart: number) => void): Extension {
  return [
    field,
    pointed,
    gutter({
      class: 'cm-marks',
      markers: (view) => view.state.field(field).gutter,
      initialSpacer: () => marks.error,
      domEventHandlers: {
        mousedown: (_view, line) => {
          pressed(line.from)
          return true
        },
      },
    }),
  ]
}

export function flawsIn(view: EditorView): readonly Flaw[] {
  return view.state.field(field).flaws
}

export function showFlaws(view: EditorView, flaws: readonly Flaw[]): void {
  view.dispatch({ effects: setFlaws.of(flaws) })
}

/** Frames a place, or nothing. */
export function pointTo(view: EditorView, place: { readonly from: number; readonly to: number } | null): void {
  view.dispatch({ effects: pointAt.of(place) })
}
