export interface TradeRule {
  readonly id: string
  readonly title: string
  /** `read`: the source, or a quotation of it, was seen; `memory`: recalled or inferred. */
  readonly basis: 'read' | 'memory'
  readonly checkable: 'fully' | 'partly' | 'layout'
  readonly source: string
  readonly section: string
}

/** What keeps a rule that no check keeps. */
export type RuleAccount =
  | { readonly output: string; readonly test: string; readonly says: string }
  | { readonly records: string }
  | { readonly leftOut: string }

export function readRules(): readonly TradeRule[]
export function readAccounts(): { readonly accounts: Readonly<Record<string, RuleAccount>>; readonly complete: boolean }
export function ruleCoverage(
  rules: readonly TradeRule[],
  checks: readonly { readonly name: string; readonly rules: readonly string[] }[],
  accounts: Readonly<Record<string, RuleAccount>>,
): string
