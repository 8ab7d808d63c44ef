import { templateTexts } from '#generated/template-texts'

/** Style sheets of `templates/styles/`, one after the other. */
export function styles(...names: readonly string[]): string {
  return names
    .map((name) => {
      const text = templateTexts[`styles/${name}.css`]
      if (text === undefined) throw new Error(`There is no style sheet "${name}".`)
      return text
    })
    .join('\n')
}
