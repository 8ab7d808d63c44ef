import { describe, expect, it } from 'vitest'
import { compileText } from '../compile-text.ts'

/** How far the checks of safety messages, signatures, lockout, hot work and lifting reach, beyond the examples of their pages. */
function names(group: string, body: string, files: Readonly<Record<string, string>> = {}): readonly string[] {
  const { findings } = compileText(body, files)
  return [...new Set(findings.map(({ name }) => name).filter((name) => name.startsWith(group)))].sort()
}

const steps = (...lines: readonly string[]): string =>
  `## Work {#work}\n\n${lines.map((line, index) => `${index + 1}. ${line}`).join('\n')}\n`

const hazard = (parts: Readonly<Record<string, string>>, more = '', work = 'Clean the floor.'): string => {
  const all = {
    hazard: 'It drops.',
    consequence: 'It bruises.',
    avoid: 'Stand aside.',
    severity: 'minor-injury',
    likelihood: 'could',
  }
  const lines = Object.entries({ ...all, ...parts }).map(([key, value]) => `    ${key}: "${value}"`)
  return `\`\`\`yaml\nhazards:\n  it:\n${lines.join('\n')}\n${more}\`\`\`\n\n## Work {#work}\n\n\`\`\`yaml\nhazards: [it]\n\`\`\`\n\n1. ${work}\n`
}

const roles =
  '```yaml\nroles:\n  fitter: { who: plant fitter }\n  supervisor: { who: shift supervisor, different-from: [fitter] }\n```\n\n'

describe('safety messages', () => {
  it.each([
    ['It kills.', 'damage', true],
    ['It kills.', 'serious-injury', false],
    ['It cuts fingers off.', 'minor-injury', false],
    ['It cuts off fingers.', 'minor-injury', true],
    ['It puts out an eye.', 'serious-injury', false],
    ['It tears the skin off.', 'minor-injury', false],
    ['It burns skin.', 'damage', true],
    ['The bearing fails early.', 'damage', false],
    ['It kills the engine.', 'death', false],
  ])('%s rated %s', (consequence, severity, isReported) => {
    expect(names('hazards/severity', hazard({ consequence, severity }))).toEqual(
      isReported ? ['hazards/severity-below-words'] : [],
    )
  })

  it.each([
    ['Wear the face shield.', '', true],
    ['Wear the face shield.', 'ppe: [face-shield]\n', false],
    ['Cut with the visor down and the gloves on.', 'ppe: [face-shield, rigger-gloves]\n', false],
    ['Never wear gloves near the spindle.', '', false],
    ['Take the gloves off first.', '', false],
    ['Hook the harness to the rail and wear it from the gate on.', '', true],
    ['Stay behind the fence.', '', false],
  ])('%s with %s', (avoid, list, isReported) => {
    expect(names('hazards/protection', hazard({ avoid }, list))).toEqual(
      isReported ? ['hazards/protection-not-listed'] : [],
    )
  })

  it.each([
    ['Drain the casing first.', 'Loosen the bolts.', true],
    ['Drain the casing first.', 'Empty the casing into the tray.', false],
    ['Bleed the line.', 'Bleed the line until the gauge reads 0.', false],
    ['Chock the wheels.', 'Chock both wheels.', false],
    ['Stay out until it is drained.', 'Loosen the bolts.', false],
    ['Keep the bleed valve open.', 'Loosen the bolts.', false],
  ])('%s in a job that says: %s', (avoid, work, isReported) => {
    expect(names('hazards/action', hazard({ avoid }, '', work))).toEqual(isReported ? ['hazards/action-hidden'] : [])
  })

  it.each([
    ['Be careful and follow the site rules.', true],
    ['Take appropriate measures.', true],
    ['Wear suitable PPE as required.', true],
    ['Take care that the pin is through both cheeks.', false],
    ['Stand 2 m away at all times.', false],
  ])('%s', (avoid, isReported) => {
    expect(names('hazards/plea', hazard({ avoid }))).toEqual(isReported ? ['hazards/plea-for-care'] : [])
  })

  it.each([
    ['Push the pin home.\n   - CAUTION - it pinches.', true],
    ['Push the pin home. ATTENTION!', true],
    ['Push the pin home.\n   - Warning: it pinches.', true],
    ['Hang the DANGER tag on the isolator.', false],
    ['Read the warning lamp.', false],
    ['Put the sign "CAUTION" at the gate.', false],
  ])('%s typed as text', (work, isReported) => {
    expect(names('hazards/message-in', steps(work))).toEqual(isReported ? ['hazards/message-in-prose'] : [])
  })

  it.each([
    ['Hot oil and noise.', true],
    ['Falling parts, dust and fumes.', true],
    ['The hub swings or drops.', false],
    ['Brake and steering accumulators hold oil under pressure.', false],
    ['Hubs and brake discs are hot after a haul.', false],
  ])('%s', (says, isReported) => {
    expect(names('hazards/several', hazard({ hazard: says }))).toEqual(isReported ? ['hazards/several-in-one'] : [])
  })
})

describe('what a step does brings hazards of its kind', () => {
  it.each([
    ['Drive the pin out with the hammer.', true],
    ['Turn the drive isolator off.', false],
    ['Knock the wedge out.', true],
    ['Grind the weld flush.', true],
    ['Heat the bearing in the oil bath.', true],
    ['Deflate the tyre.', true],
    ['Fill oil until it runs out at the plug.', false],
    ['Climb up on the deck.', true],
    ['Disconnect the batteries, negative first.', true],
    ['Turn the battery isolator off.', false],
    ['Drain the fuel into the bowser.', true],
    ['Wash the hub and dry it with a cloth.', false],
    ['Look at the oil and the magnet.', false],
    ['Take the belt off the tramp magnet.', true],
  ])('%s', (work, isReported) => {
    expect(names('hazards/class', steps(work))).toEqual(isReported ? ['hazards/class-missing'] : [])
  })

  it('is quiet where a hazard of the kind, or what is worn against it, is named', () => {
    const work = 'Grind the weld flush.'
    const flies = { hazard: 'Sparks fly.', consequence: 'They hit the eye.' }
    expect(names('hazards/class', hazard(flies, 'ppe: [hearing-protection]\n', work))).toEqual([])
    expect(names('hazards/class', hazard(flies, '', work))).toEqual(['hazards/class-missing'])
  })
})

describe('signatures', () => {
  const signed = (says: string) =>
    `${roles}## Work {#work}\n\n\`\`\`yaml\nby: fitter\n\`\`\`\n\n1. Tighten it.\n   \`\`\`yaml\n   hold: { supervisor: "${says}" }\n   \`\`\`\n`

  it.each([
    ['OK.', true],
    ['Work checked and approved by the supervisor.', true],
    ['Both brackets tight.', false],
    ['Locks on, nobody under the belt.', false],
    ['I saw the pin.', false],
  ])('%s', (says, isReported) => {
    expect(names('holds/criterion', signed(says))).toEqual(isReported ? ['holds/criterion-missing'] : [])
  })

  it.each([
    ['Have the supervisor sign for the pins.', true],
    ['Do not go on until the supervisor has released the step.', true],
    ['Show the supervisor the pins.', false],
    ['This is a hold point.', true],
    ['Ask the fitter to sign.', false],
    ['Do not go on until the oil is cool.', false],
  ])('%s', (work, isReported) => {
    const body = `${roles}## Work {#work}\n\n\`\`\`yaml\nby: fitter\n\`\`\`\n\n1. ${work}\n`
    expect(names('holds/asked', body)).toEqual(isReported ? ['holds/asked-in-words-only'] : [])
  })
})

describe('hot work told in words', () => {
  it.each([
    ['Weld the rib.', true],
    ['Clean the joint and weld it.', true],
    ['Cut the bolt with the torch.', true],
    ['Look at the weld.', false],
    ['Read the torch pressure.', false],
    ['Grind through the bolt.', true],
    ['Measure the gap at the welded seam.', false],
  ])('%s', (work, isReported) => {
    expect(names('hot-work/told', steps(work))).toEqual(isReported ? ['hot-work/told-in-words-only'] : [])
  })
})

describe('confined spaces told in words', () => {
  it.each([
    ['Climb into the surge bin.', true],
    ['Enter the tank.', true],
    ['Put the bolts into the bin.', false],
    ['Fill the tank.', false],
    ['Go to the tank.', false],
  ])('%s', (work, isReported) => {
    expect(names('confined', steps(work))).toEqual(isReported ? ['confined-space/zone-without-entry'] : [])
  })
})

describe('parts that move by their weight', () => {
  it.each([
    [['Raise the body.', 'Grease the pins.'], true],
    [['Raise the body.', 'Set the prop.'], false],
    [['Raise the body and rest it on its stands.'], false],
    [['Raise your hand.'], false],
    [['Bar the motor over until the flywheel comes round.'], true],
    [['Chock the flywheel, then bar it over.'], false],
  ])('%s', (work, isReported) => {
    expect(names('lockout/part', steps(...work))).toEqual(isReported ? ['lockout/part-not-blocked'] : [])
  })
})
