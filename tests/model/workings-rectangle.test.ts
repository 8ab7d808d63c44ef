import { expect, it } from 'vitest'
import { stepDrawings } from '../../src/drawings/step-drawings.ts'
import { compileText, stepFileOf } from '../compile-text.ts'

const text = (torque: string) =>
  `\`\`\`yaml\ntools: { tw: { name: torque wrench, range: 20 to 200 N·m } }\n\`\`\`\n\n## Close {#close}\n\n1. Tighten the bolts.\n   \`\`\`yaml\n   torque: { cover: "72 to 80 N·m, ${torque}, with tw" }\n   \`\`\`\n`

function drawn(torque: string) {
  const stepFile = stepFileOf(text(torque))
  const [step] = stepFile.phases[0]?.steps ?? []
  const order = step?.workings.flatMap(({ figures }) => figures).find(({ name }) => name === 'order')?.value
  return { order, says: step ? stepDrawings(step, stepFile).map(({ says }) => says) : [] }
}

// Common practice, no published source: from the middle outwards, each bolt followed by the one opposite through the middle.
it('orders and draws a rectangle from its middle outwards', () => {
  const { order, says } = drawn('8 × M12 8.8, oiled, rectangle 2 × 4')
  expect(order).toBe('2, 7, 3, 6, 1, 8, 4, 5')
  expect(says.join()).toContain('8 bolts in 2 rows of 4')
})

it('draws the order of the author, and none where the count is another', () => {
  const own = drawn('6 × M12 8.8, oiled, rectangle 2 × 3, order 1 6 3 4 2 5')
  expect(own.order).toBeUndefined()
  expect(own.says.join()).toContain('Tighten in the order 1, 6, 3, 4, 2, 5')
  const names = compileText(text('10 × M12 8.8, oiled, rectangle 2 × 4')).findings.map(({ name }) => name)
  expect(names).toContain('torque/rectangle-misfits')
})
