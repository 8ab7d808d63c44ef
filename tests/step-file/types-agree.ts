import type { StepFile as FromSchema } from '../../src/step-file/generated/step-file.ts'
import type { StepFile } from '../../src/step-file/step-file.ts'

/** The compiler refuses this file when the schema and the model's types drift apart, in either direction. */
type Readonlied<T> = T extends (infer Item)[]
  ? readonly Readonlied<Item>[]
  : T extends object
    ? { readonly [Key in keyof T]: Readonlied<T[Key]> }
    : T

export function toSchema(stepFile: StepFile): Readonlied<FromSchema> {
  return stepFile
}

export function fromSchema(stepFile: Readonlied<FromSchema>): StepFile {
  return stepFile
}
