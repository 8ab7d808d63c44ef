/** A small procedure with what paper must ask for: tries, places, torque with variants, a hold, a check, a branch of steps. */
export const idlerFront = 'variants: { bolt: [m16, m20] }\nprint-units: [metric, inch]\n'

export const idlerBody = `Swap one worn return idler of a stopped belt.

\`\`\`yaml
roles:
  fitter: { who: conveyor fitter }
  supervisor: { who: shift supervisor, different-from: [fitter] }
states:
  belt: { values: [running, locked], start: running, end: running, energy: electrical, safe: [locked], proved-by: [supervisor] }
zones:
  below-belt: { what: below the belt, safe-when: { belt: locked } }
hazards:
  drawn-in: { hazard: The belt draws a hand in., consequence: It crushes the arm., avoid: Keep out until the lock is on., severity: death, likelihood: could }
\`\`\`

## Lock the belt {#lock}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Stop the belt and put your lock on. {#stop}
   \`\`\`yaml
   hazards: [drawn-in]
   sets: { belt: locked }
   proves: { belt: locked }
   hold: { supervisor: I saw the belt locked and tried. }
   \`\`\`

## Change the idler {#change}

\`\`\`yaml
by: fitter
where: below-belt
\`\`\`

1. Measure the gap at both ends. {#gap}
   \`\`\`yaml
   measure: { gap: "2.0 to 3.0 mm, at left right" }
   else: { redo: gap, at-most: 3, then: stop }
   \`\`\`
2. Tighten the bolts of the bracket. {#tighten}
   \`\`\`yaml
   torque:
     bracket-16: { limit: "190 to 210 N·m", fastener: 4 x M16 8.8, lubrication: dry, passes: [50 %, 100 %], only: m16 }
     bracket-20: { limit: "370 to 410 N·m", fastener: 4 x M20 8.8, lubrication: dry, passes: [50 %, 100 %], only: m20 }
   \`\`\`
3. Fit the long washers. {#washers}
   \`\`\`yaml
   only: m20
   \`\`\`
4. Look at the roller. {#look}
   \`\`\`yaml
   check: { roller-turns: { asks: Does it turn by hand?, pass: [turns], fail: [sticks] } }
   else: stop
   \`\`\`

## Hand back {#back}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Take the lock off and start the belt. {#start}
   \`\`\`yaml
   clear: below-belt
   sets: { belt: running }
   \`\`\`
`
