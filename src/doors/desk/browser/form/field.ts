import type { FormValue } from '../../../../writing/forms/form.ts'

/** Tells the form what a field holds now. */
export type Change = (value: FormValue) => void

/** What a field is called, for the element that takes the typing. */
export interface Named {
  readonly id: string
  readonly label: string
  readonly wants: string
}

let lastId = 0
export const freshId = (): string => `field-${++lastId}`
