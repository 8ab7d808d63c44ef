import type { FormValue, StatePick } from '../../../../writing/forms/form.ts'
import { make } from '../elements.ts'
import type { Change, Named } from './field.ts'

/** States, each with the values it may have; both are picked. */
export function claimsView(
  states: readonly StatePick[],
  value: Readonly<Record<string, FormValue>>,
  { label }: Named,
  change: Change,
): HTMLElement {
  const now = new Map<string, readonly string[]>(
    Object.entries(value).map(([name, values]) => [name, [values].flat().filter((one) => typeof one === 'string')]),
  )
  const tell = (): void => change(Object.fromEntries([...now].filter(([, values]) => values.length > 0)) as FormValue)
  const table = make('div', { role: 'group', 'aria-label': label })
  const known = [...states]
  for (const name of now.keys())
    if (!known.some((state) => state.name === name)) known.push({ name, values: now.get(name) ?? [] })
  for (const { name, values } of known) {
    const own = new Set([...values, ...(now.get(name) ?? [])])
    const boxes = [...own].map((one) => {
      const tick = make('input', { type: 'checkbox' })
      tick.checked = now.get(name)?.includes(one) ?? false
      tick.addEventListener('change', () => {
        const before = (now.get(name) ?? []).filter((other) => other !== one)
        now.set(name, tick.checked ? [...before, one] : before)
        tell()
      })
      return make('label', {}, tick, one)
    })
    table.append(
      make(
        'div',
        { class: 'form-row', role: 'group', 'aria-label': name },
        make('strong', {}, name),
        make('div', { class: 'picks' }, ...boxes),
      ),
    )
  }
  if (known.length === 0)
    table.append(make('p', { class: 'help' }, 'No states are named yet. Put in States for the whole procedure first.'))
  return table
}
