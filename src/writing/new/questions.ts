/** What kind of job it is. */
export const jobKinds = ['inspect', 'replace', 'adjust', 'service'] as const
export type JobKind = (typeof jobKinds)[number]

/** What a new procedure is made from. */
export interface Answers {
  readonly title: string
  /** Null: to be filled. */
  readonly number: string | null
  /** The day of the first revision, `2026-03-02`. */
  readonly date: string
  readonly kind: JobKind
  /** What the work is on, in words: `dust fan`. */
  readonly equipment: string
  /** A machine of the library with its energies; null where there is none. */
  readonly machine: MachineFacts | null
  /** Power is locked out. */
  readonly isolation: boolean
  /** Pressure is let off and proved off. */
  readonly pressure: boolean
  /** A guard comes off. */
  readonly guard: boolean
  /** Something is lifted with a hook. */
  readonly lift: boolean
  /** Cutting, welding, grinding or heating. */
  readonly hotWork: boolean
  /** The work is done once for each of these; empty: once. */
  readonly positions: readonly string[]
}

/** What a machine file says that a procedure has to answer. */
export interface MachineFacts {
  readonly id: string
  readonly energies: readonly { readonly id: string; readonly kind: string }[]
  readonly isolationPoints: readonly string[]
}

/** One question to whoever starts a procedure. */
export type Question = {
  readonly name: Exclude<keyof Answers, 'date'>
  /** The option that answers it without asking. */
  readonly flag: string
  readonly asks: string
  /** What is good to know before answering. */
  readonly help: string
} & (
  | { readonly takes: 'words' | 'machine' | 'names' }
  | { readonly takes: 'yes or no' }
  | { readonly takes: 'choice'; readonly choices: readonly (readonly [value: string, says: string])[] }
)

/** In the order in which they are asked. */
export const questions: readonly Question[] = [
  {
    name: 'title',
    flag: '--title',
    asks: 'What is the job called?',
    help: 'The thing, a colon, and what is done: "Dust fan: change the belts".',
    takes: 'words',
  },
  {
    name: 'number',
    flag: '--number',
    asks: 'What number does the document have?',
    help: 'Leave it empty if nobody has given one yet.',
    takes: 'words',
  },
  {
    name: 'kind',
    flag: '--kind',
    asks: 'What kind of job is it?',
    help: '',
    takes: 'choice',
    choices: [
      ['inspect', 'look it over and measure'],
      ['replace', 'take a part out and fit a new one'],
      ['adjust', 'measure, set, and measure again'],
      ['service', 'clean, grease or change oil'],
    ],
  },
  {
    name: 'equipment',
    flag: '--equipment',
    asks: 'What is the work on?',
    help: 'As people say it in the shop: "dust fan".',
    takes: 'words',
  },
  {
    name: 'machine',
    flag: '--machine',
    asks: 'Which machine file of the library is it?',
    help: 'Leave it empty if the machine has none yet.',
    takes: 'machine',
  },
  {
    name: 'isolation',
    flag: '--isolation',
    asks: 'Is the power locked out for it?',
    help: 'Electrical supply, drive or engine.',
    takes: 'yes or no',
  },
  {
    name: 'pressure',
    flag: '--pressure',
    asks: 'Is pressure let off?',
    help: 'Oil, air, gas, water or steam.',
    takes: 'yes or no',
  },
  {
    name: 'guard',
    flag: '--guard',
    asks: 'Does a guard or cover come off?',
    help: '',
    takes: 'yes or no',
  },
  {
    name: 'lift',
    flag: '--lift',
    asks: 'Is something lifted with a crane or hoist?',
    help: '',
    takes: 'yes or no',
  },
  {
    name: 'hotWork',
    flag: '--hot-work',
    asks: 'Is there cutting, welding, grinding or heating?',
    help: '',
    takes: 'yes or no',
  },
  {
    name: 'positions',
    flag: '--positions',
    asks: 'Is it done at more than one place, one after the other?',
    help: 'Their names with blanks between them: left right. Leave it empty if it is done once.',
    takes: 'names',
  },
]
