import Handlebars from 'handlebars/runtime.js'
import { templates } from '#generated/templates'

const runtime = Handlebars.create()
const filled = new Map<string, (view: unknown) => string>()
for (const [name, spec] of Object.entries(templates)) {
  const template = runtime.template(spec)
  filled.set(name, template)
  runtime.registerPartial(name, template)
}

/**
 * Fills `templates/<name>.hbs` with a view: plain data whose every text is printed escaped.
 * A value that the template names and the view lacks is a mistake of ours and throws.
 */
export function fillTemplate(name: string, view: unknown): string {
  const template = filled.get(name)
  if (template === undefined) throw new Error(`There is no template "${name}".`)
  return template(view)
}
