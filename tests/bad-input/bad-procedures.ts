import { procedure, stepWith } from './good-procedure.ts'

/** A file that something is wrong with, and what a person must be told about it. */
export interface BadProcedure {
  readonly content: string | Uint8Array
  /** Words of the message or the advice. */
  readonly says: RegExp
  /** Where the finding stands, if not in the procedure itself. */
  readonly at?: string
}

const deep = 300

export const badProcedures: Readonly<Record<string, BadProcedure>> = {
  'broken-yaml': { content: procedure('KRQ-BAD-001', { steps: stepWith('torque: { bolts: [1, 2') }), says: /./ },
  'alias-bomb': {
    content: procedure('KRQ-BAD-002', {
      steps: stepWith(
        'a: &a [x, x, x, x, x, x, x, x, x]',
        ...'bcdefghij'.split('').map((name, index) => {
          const before = 'abcdefghi'[index]
          return `${name}: &${name} [${Array(9).fill(`*${before}`).join(', ')}]`
        }),
      ),
    }),
    says: /anchor|alias|[&*]a/i,
  },
  'key-twice': {
    content: procedure('KRQ-BAD-003', { steps: stepWith('takes: 10 min', 'takes: 20 min') }),
    says: /takes/,
  },
  'id-twice': {
    content: procedure('KRQ-BAD-004', {
      steps: '1. Wipe one nipple clean. {#wipe}\n2. Wipe the other clean. {#wipe}\n',
    }),
    says: /wipe/,
  },
  'unknown-key': { content: procedure('KRQ-BAD-005', { steps: stepWith('torqe: { bolts: 40 N·m }') }), says: /torque/ },
  'wrong-type': { content: procedure('KRQ-BAD-006', { steps: stepWith('torque: [1, 2, 3]') }), says: /torque/ },
  'prototype-key': {
    content: procedure('KRQ-BAD-007', { steps: stepWith('__proto__: { polluted: yes }') }),
    says: /__proto__/,
  },
  'constructor-key': {
    content: procedure('KRQ-BAD-008', { steps: stepWith('constructor: { prototype: { polluted: yes } }') }),
    says: /constructor/,
  },
  'prototype-state': {
    content: procedure('KRQ-BAD-009', {
      documentBlock: 'states:\n  __proto__: { values: [on, off], start: on, end: on }\n',
    }),
    says: /__proto__/,
  },
  empty: { content: '', says: /empty|nothing|front matter/i },
  'only-blanks': { content: '\n\n  \n', says: /empty|nothing|front matter/i },
  'no-front-matter': { content: '# Grease the tail pulley\n\n1. Wipe it.\n', says: /front matter|---/i },
  'front-matter-open': { content: '---\nnumber: KRQ-BAD-010\n\n# Grease\n', says: /front matter|---/i },
  'front-matter-a-list': { content: '---\n- one\n- two\n---\n\n## Grease\n\n1. Wipe it.\n', says: /./ },
  binary: { content: new Uint8Array([0x7f, 0x45, 0x4c, 0x46, 0, 1, 2, 3, 0xff]), says: /zero bytes|not a text/i },
  'not-utf8': {
    content: Buffer.concat([Buffer.from('# Grease\n\nat 40 '), new Uint8Array([0xb0]), Buffer.from('C\n')]),
    says: /UTF-8/,
  },
  'yaml-nested': {
    content: procedure('KRQ-BAD-011', { steps: stepWith(`torque: ${'['.repeat(deep)}x${']'.repeat(deep)}`) }),
    says: /./,
  },
  'lists-nested': {
    content: procedure('KRQ-BAD-012', {
      steps: Array.from({ length: deep }, (_, level) => `${'   '.repeat(level)}1. Wipe it, level ${level}.`).join('\n'),
    }),
    says: /./,
  },
  'too-large': { content: Buffer.alloc(9 * 1024 * 1024, '# Grease\n'), says: /too large/i },
  'figure-above': {
    content: procedure('KRQ-BAD-013', { steps: '1. Wipe it.\n\n   ![The nipple](../../../outside/secret.png)\n' }),
    says: /outside the library/,
  },
  'figure-absolute': {
    content: procedure('KRQ-BAD-014', { steps: '1. Wipe it.\n\n   ![The nipple](/etc/hostname.png)\n' }),
    says: /root of the disk/,
  },
  'figure-link-out': {
    content: procedure('KRQ-BAD-015', { steps: '1. Wipe it.\n\n   ![The nipple](figures/link.png)\n' }),
    says: /leads out/,
  },
  'include-above': {
    content: procedure('KRQ-BAD-016', { steps: '' }).replace(
      'by: fitter',
      'by: fitter\ninclude: ../../../outside/secret',
    ),
    says: /secret/,
  },
  'include-of-itself': {
    content: procedure('KRQ-BAD-017', { steps: '' }).replace('by: fitter', 'by: fitter\ninclude: circle'),
    says: /circle|itself/,
    at: 'shared/fragments/circle.md',
  },
  'number-a-path': { content: procedure('../../KRQ-BAD-018'), says: /KRQ-BAD-018/ },
  'number-odd': { content: procedure('"KRQ BAD:019?*"'), says: /KRQ BAD:019/ },
  'fence-open': { content: procedure('KRQ-BAD-020').concat('\n```yaml\ntakes: 10 min\n'), says: /fence|```/i },
}
