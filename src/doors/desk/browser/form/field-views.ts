import type { FormField, FormShape, FormValue, Pick } from '../../../../writing/forms/form.ts'
import { button, make } from '../elements.ts'
import { claimsView } from './claims-view.ts'
import { type Change, freshId, type Named } from './field.ts'
import { limitView } from './limit-view.ts'

/** A value to be filled in, as its shape asks for it. */
export function view(shape: FormShape, value: FormValue | undefined, named: Named, change: Change): HTMLElement {
  switch (shape.kind) {
    case 'text':
      if (shape.figure === 'limit') return limitView(shape.units, textOf(value), named, change)
      return shape.picks.length > 0
        ? pickView(shape.picks, shape.closed, textOf(value), named, change)
        : textView(shape.long, textOf(value), named, change)
    case 'said':
      return saidView(value, named, change)
    case 'list':
      return shape.of.kind === 'text' && shape.of.picks.length > 0
        ? picksView(shape.of.picks, listOf(value), named, change)
        : rowsView(shape.of, listOf(value), named, change)
    case 'claims':
      return claimsView(shape.states, mapOf(value), named, change)
    case 'named':
      return namedView(shape.names, shape.of, mapOf(value), named, change)
    case 'group':
      return groupView(shape.fields, mapOf(value), change)
  }
}

const textOf = (value: FormValue | undefined): string => (typeof value === 'string' ? value : '')
const listOf = (value: FormValue | undefined): readonly FormValue[] =>
  Array.isArray(value) ? value : value === undefined || value === '' ? [] : [value]
const mapOf = (value: FormValue | undefined): Readonly<Record<string, FormValue>> =>
  typeof value === 'object' && !Array.isArray(value) ? (value as Readonly<Record<string, FormValue>>) : {}

function textView(isLong: boolean, value: string, { id, label, wants }: Named, change: Change): HTMLElement {
  const about = { id, 'aria-label': label, placeholder: example(wants), autocomplete: 'off' }
  const input = isLong ? make('textarea', { ...about, rows: '2' }) : make('input', { ...about, type: 'text' })
  input.value = value
  input.addEventListener('input', () => change(input.value))
  return input
}

/** `a limit, like max 3 mm` → `like max 3 mm`. */
function example(wants: string): string {
  return /like .*/.exec(wants)?.[0].replaceAll('`', '') ?? ''
}

const other = ' '

/** Picked from what there is; something else can be typed where the language allows it. */
export function pickView(
  picks: readonly Pick[],
  isClosed: boolean,
  value: string,
  { id, label }: Named,
  change: Change,
): HTMLElement {
  const select = make('select', { id, 'aria-label': label }, make('option', { value: '' }, '– pick –'))
  for (const { name, about } of picks)
    select.append(make('option', { value: name }, about === '' ? name : `${name} – ${about}`))
  const typed = make('input', { type: 'text', 'aria-label': `${label}: something else`, autocomplete: 'off' })
  if (!isClosed || !picks.some(({ name }) => name === value))
    select.append(make('option', { value: other }, 'Something else…'))
  const isOther = value !== '' && !picks.some(({ name }) => name === value)
  select.value = isOther ? other : value
  typed.value = isOther ? value : ''
  typed.hidden = !isOther
  select.addEventListener('change', () => {
    typed.hidden = select.value !== other
    if (!typed.hidden) typed.focus()
    change(typed.hidden ? select.value : typed.value)
  })
  typed.addEventListener('input', () => change(typed.value))
  return make('div', {}, select, typed)
}

/** Several of what there is. */
function picksView(
  picks: readonly Pick[],
  values: readonly FormValue[],
  { label }: Named,
  change: Change,
): HTMLElement {
  const chosen = new Set(values.filter((value): value is string => typeof value === 'string'))
  const known = new Set(picks.map(({ name }) => name))
  const tell = (): void => change([...chosen])
  const box = (name: string, about: string): HTMLElement => {
    const tick = make('input', { type: 'checkbox' })
    tick.checked = chosen.has(name)
    tick.addEventListener('change', () => {
      if (tick.checked) chosen.add(name)
      else chosen.delete(name)
      tell()
    })
    return make('label', {}, tick, about === '' || about === name ? name : `${name} – ${about}`)
  }
  const boxes = make('div', { class: 'picks', role: 'group', 'aria-label': label })
  boxes.append(...picks.map(({ name, about }) => box(name, about)))
  for (const name of chosen) if (!known.has(name)) boxes.append(box(name, ''))
  const more = make('input', {
    type: 'text',
    'aria-label': `${label}: one more`,
    autocomplete: 'off',
    placeholder: 'one more',
  })
  const add = button('Add', () => {
    const name = more.value.trim()
    if (name === '' || chosen.has(name)) return
    chosen.add(name)
    boxes.append(box(name, ''))
    more.value = ''
    tell()
  })
  return make('div', {}, boxes, make('div', { class: 'form-row' }, more, add))
}

/** Takes an item out of a list, and its row with it. */
function takeOut<Item>(items: Item[], item: Item, row: HTMLElement, tell: () => void): HTMLElement {
  return button('Take out', () => {
    items.splice(items.indexOf(item), 1)
    row.remove()
    tell()
  })
}

function rowsView(of: FormShape, values: readonly FormValue[], { label, wants }: Named, change: Change): HTMLElement {
  const items: { value: FormValue }[] = values.map((value) => ({ value }))
  const tell = (): void => change(items.map(({ value }) => value))
  const rows = make('div', { role: 'group', 'aria-label': label })
  const add = (item: { value: FormValue }): HTMLElement => {
    const number = rows.children.length + 1
    const named = { id: freshId(), label: `${label} ${number}`, wants }
    const own = view(of, item.value, named, (value) => {
      item.value = value
      tell()
    })
    const row = make('div', { class: of.kind === 'group' ? 'form-group' : 'form-row' }, own)
    row.append(takeOut(items, item, row, tell))
    rows.append(row)
    return row
  }
  if (items.length === 0 && of.kind === 'group') items.push({ value: {} })
  for (const item of items) add(item)
  const more = button('Add one', () => {
    const item = { value: of.kind === 'group' ? {} : '' } as { value: FormValue }
    items.push(item)
    add(item).querySelector<HTMLElement>('input, select, textarea')?.focus()
  })
  return make('div', {}, rows, more)
}

function saidView(value: FormValue | undefined, { id, label }: Named, change: Change): HTMLElement {
  const tick = make('input', { type: 'checkbox', id, 'aria-label': label })
  const words = make('input', { type: 'text', 'aria-label': `${label}: why`, placeholder: 'why', autocomplete: 'off' })
  tick.checked = value !== undefined
  words.value = textOf(value)
  const tell = (): void => change(tick.checked ? words.value : [])
  tick.addEventListener('change', tell)
  words.addEventListener('input', () => {
    if (words.value !== '') tick.checked = true
    tell()
  })
  return make('div', { class: 'form-row' }, tick, words)
}

/** A name and what belongs to it, a row each. */
function namedView(
  names: readonly Pick[],
  of: FormShape,
  value: Readonly<Record<string, FormValue>>,
  { label }: Named,
  change: Change,
): HTMLElement {
  const items = Object.entries(value).map(([name, own]) => ({ name, value: own }))
  const tell = (): void =>
    change(Object.fromEntries(items.filter(({ name }) => name !== '').map((item) => [item.name, item.value])))
  const rows = make('div', { role: 'group', 'aria-label': label })
  const add = (item: { name: string; value: FormValue }): HTMLElement => {
    const number = `${label} ${rows.children.length + 1}`
    const renamed = (name: FormValue): void => {
      item.name = typeof name === 'string' ? name.trim() : ''
      tell()
    }
    const who = { id: freshId(), label: `${number}: name`, wants: '' }
    const name =
      names.length > 0 ? pickView(names, false, item.name, who, renamed) : textView(false, item.name, who, renamed)
    const own = view(of, item.value, { id: freshId(), label: `${number}: what`, wants: '' }, (next) => {
      item.value = next
      tell()
    })
    const row = make('div', { class: 'form-group' }, name, own)
    row.append(takeOut(items, item, row, tell))
    rows.append(row)
    return row
  }
  const fresh = (): { name: string; value: FormValue } => ({
    name: '',
    value: of.kind === 'group' ? {} : of.kind === 'list' ? [] : '',
  })
  if (items.length === 0) items.push(fresh())
  for (const item of items) add(item)
  const more = button('Add one', () => {
    const item = fresh()
    items.push(item)
    add(item).querySelector<HTMLElement>('input, select')?.focus()
  })
  return make('div', {}, rows, more)
}

/** Fields with their names; what is seldom asked for stands behind “More”. */
function groupView(
  fields: readonly FormField[],
  value: Readonly<Record<string, FormValue>>,
  change: Change,
): HTMLElement {
  const now: Record<string, FormValue> = { ...value }
  const row = (field: FormField): HTMLElement => {
    const id = freshId()
    const named = { id, label: field.label, wants: field.wants }
    const set = (next: FormValue): void => {
      // A tick that is taken out is no empty text: the field goes.
      if (field.shape.kind === 'said' && Array.isArray(next)) delete now[field.name]
      else now[field.name] = next
      pickAnew(field.name)
      change({ ...now })
    }
    const label = make(
      'label',
      { for: id },
      field.label,
      field.required ? make('span', { class: 'must' }, ' (needed)') : null,
    )
    const help = plainHelp(field.help)
    const isNested = field.shape.kind === 'group'
    const own = view(withPicksBeside(field.shape, now), now[field.name], named, set)
    return make(
      'div',
      { class: isNested ? 'form-field form-group' : 'form-field', 'data-field': field.name },
      isNested ? make('span', { class: 'label' }, field.label) : label,
      help === '' ? null : make('p', { class: 'help' }, help),
      own,
    )
  }
  const rows = new Map<FormField, HTMLElement>()
  const drawn = (field: FormField): HTMLElement => {
    const element = row(field)
    rows.set(field, element)
    return element
  }
  /** What is picked from another field is drawn again when that one changes. */
  const pickAnew = (name: string): void => {
    for (const [field, before] of rows) {
      if (fromOf(field.shape) !== name || before.contains(document.activeElement)) continue
      before.replaceWith(drawn(field))
    }
  }
  const isShown = (field: FormField): boolean =>
    field.required || field.usual || now[field.name] !== undefined || !fields.some(({ usual }) => usual)
  const shown = fields.filter(isShown)
  const others = fields.filter((field) => !isShown(field))
  const group = make('div', {}, ...shown.map(drawn))
  if (others.length > 0) {
    const more = make('details', {}, make('summary', {}, 'More'))
    // Built when asked for: few ever are.
    more.addEventListener('toggle', () => more.append(...others.map(drawn)), { once: true })
    group.append(more)
  }
  return group
}

function fromOf(shape: FormShape): string | null {
  return shape.kind === 'text' ? shape.from : shape.kind === 'list' ? fromOf(shape.of) : null
}

function withPicksBeside(shape: FormShape, now: Readonly<Record<string, FormValue>>): FormShape {
  if (shape.kind === 'list') return { ...shape, of: withPicksBeside(shape.of, now) }
  if (shape.kind !== 'text' || shape.from === null) return shape
  const beside = listOf(now[shape.from]).filter((item): item is string => typeof item === 'string' && item !== '')
  const others = shape.picks.filter(({ name }) => !beside.includes(name))
  return { ...shape, picks: [...beside.map((name) => ({ name, about: '' })), ...others] }
}

function plainHelp(help: string): string {
  return help.replaceAll('`', '').replaceAll('*', '')
}
