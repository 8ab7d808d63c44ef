/** A procedure of Kestrel Ridge Quarry with one of everything the reader knows. */
export const sample = `---
number: KRQ-CV-021
title: "Conveyor 3: change the tail pulley bearing"
revision: 0012
status: draft
parts: [0451E2, 3/8 in, 1.10]
---

# Conveyor 3: change the tail pulley bearing

One bearing comes off and a new one goes on. See [the isolation](#isolate) first.

\`\`\`yaml
roles:
  fitter: { who: plant fitter, qualification: [own lock] }
  rigger: { who: 'slinger, "basic" rigging' }
states:
  belt: { values: [tensioned, slack], start: tensioned, end: tensioned }
# a remark of the author's
\`\`\`

## Isolate {#isolate}

The belt stands **empty**. Call \`control\` or <https://example.org/krq>.

| Point | Where |
|---|---|
| bc-3-iso | at [=height] beside the drive |

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. **Fitter and second:** Turn the isolator off. {#off}
   \`\`\`yaml
   locks: [bc-3-iso]
   sets: { belt: slack }
   \`\`\`
2. Try to start the belt.
   - **Rigger:** Watch the *tail* end.
   - **Fitter:** Press start at [=panel].
   - Nothing moves.

   ![The start button](figures/start.svg "Start button, bottom row")

## Raise the pulley

1. Sling the pulley.
   1. Fit the shackle.
      \`\`\`YAML
      hold:
        supervisor: |
          Shackle seated.
          Pin moused.
      \`\`\`
   2. Take up the weight. {#weight}
2. Decide.
   \`\`\`yaml
   decide:
     ask: Is the seat worn?
     branches:
       - { answer: yes, go: worn }
       - { otherwise: no, go: continue }
   measure:
     gap: >
       0.10 to
       0.20 mm
     load: ??
     note: "a # sign: kept"
   \`\`\`

### Worn seat {#worn}

1. Stop, see [](#weight).

## Fit

3 bolts stay loose.

1. A.
2. B.
3. C.
4. D.
5. E.
6. F.
7. G.
8. H.
9. I.
10. Tighten the bolts.
    ~~~yaml
    torque:
      housing: 390 N·m ± 5 %, 4 × M20 8.8
    ~~~

    > Let it cool first.
`
