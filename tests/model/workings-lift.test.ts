import { expect, it } from 'vitest'
import { workingsOf } from './loads-text.ts'
it('x', () => {
  console.log(JSON.stringify(workingsOf(`
crane: { name: bay crane, capacity: 5 t }
two-leg: { name: two-leg chain sling, capacity: 2 t }
shackle: { name: bow shackle, capacity: 1 t }
stand-a: { name: stand, capacity: 10 t }
stand-b: { name: stand, capacity: 10 t }
`, `
lift:
  hub: 640 kg ± 10 %, legs 2, angle 60° from horizontal, with crane two-leg shackle, tag-lines 1
  drum: { load: 2 t ± 10 %, legs: 2, leg-length: 3 m, hook-points: 2.4 m, centre-of-gravity: 300 mm towards the drive, with: [crane], shock: 25 }
support: { axle: "10 t ± 10 %, on stand-a stand-b, share 55 45 %" }
handle:
  cover: 18 kg, by 1, reach 40 cm, from-height 20 cm, to-height 110 cm, turn 45°, grip fair, rate 2/min, for 30 min
  lid: 38 kg, by 2, reach 15 in, from-height 20 in, to-height 40 in
`), null, 1))
})
