export interface Variant {
  readonly name: string
  readonly values: readonly string[]
}

export interface Only {
  readonly variant: string
  readonly values: readonly string[]
}
