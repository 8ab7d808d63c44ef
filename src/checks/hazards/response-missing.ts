import type { Fault } from '../../findings/finding.ts'
import type { Hazard, Procedure } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { entryOf, listIn, partIn } from '../entry-data.ts'

interface Contact {
  readonly what: string
  readonly energies: RegExp
  /** In the message itself, where its energy does not tell. */
  readonly says: RegExp
  /** Words of an emergency that answers it. */
  readonly answered: RegExp
  readonly advice: string
}

const anyHelp = 'first aid|ambulance|hospital|doctor|medic|rescue'

const contacts: readonly Contact[] = [
  {
    what: 'Oil that goes through the skin',
    energies: /^hydraulic$/i,
    says: /\b(?:through (?:the )?skin|inject\w*|jet of oil)\b/i,
    answered: new RegExp(`\\b(?:oil|skin|inject\\w*|hydraul\\w*|${anyHelp})\\b`, 'i'),
    advice: 'oil-under-the-skin: It hardly hurts and it is an emergency. Straight to hospital, say "oil injection".',
  },
  {
    what: 'Electric shock',
    energies: /^electrical$/i,
    says: /\b(?:electric\w* shock|electrocut\w*)\b/i,
    answered: new RegExp(`\\b(?:shock|electric\\w*|current|power|${anyHelp})\\b`, 'i'),
    advice: 'electric-shock: Cut the power first, do not touch him before. Call for help, start resuscitation.',
  },
  {
    what: 'Something that burns skin and eyes or poisons',
    energies: /^(?:chemical|toxic)$/i,
    says: /\b(?:acid|caustic|corrosive|poison\w*)\b/i,
    answered: new RegExp(`\\b(?:eyes?|rinse|wash|shower|data sheet|poison\\w*|acid|fresh air|${anyHelp})\\b`, 'i'),
    advice: 'in-the-eyes: Rinse with water for 15 minutes and call for help. Take the data sheet along.',
  },
]

/** When it has happened, nobody has time to think: the answer stands on the sheet. */
export const responseMissing: Check = {
  name: 'hazards/response-missing',
  severity: 'warning',
  title: 'A hazard can reach the body, and nothing says what to do when it has.',
  rules: ['SM-16'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const emergencies = saidInEmergencies(procedure)
    for (const contact of contacts) {
      const hazard = procedure.hazards.find((one) => isContact(one, contact))
      if (hazard === undefined || contact.answered.test(emergencies)) continue
      yield {
        at: hazard.at,
        message: `${contact.what} is the hazard "${hazard.id}", and nothing says what to do when it has happened.`,
        advice: `Write it under emergency, as your first aiders teach it, such as ${contact.advice}`,
      }
    }
  },
}

function isContact({ severity, energyClass, hazard, consequence }: Hazard, { energies, says }: Contact): boolean {
  if (severity !== 'death' && severity !== 'serious-injury') return false
  return energies.test(energyClass ?? '')
    ? says.test(`${hazard} ${consequence}`) || energyClass !== 'hydraulic'
    : says.test(`${hazard} ${consequence}`)
}

function saidInEmergencies({ emergency, phases }: Procedure): string {
  const ofPhases = phases.flatMap((phase) => {
    const data = entryOf(phase, 'emergency')?.data
    return data === undefined
      ? []
      : listIn({ all: data }, 'all').flatMap((name) => [
          name,
          ...listIn(data, name),
          ...listIn(partIn(data, name), 'says'),
        ])
  })
  return [...emergency.flatMap(({ name, says }) => [name, says]), ...ofPhases].join('\n').replaceAll('-', ' ')
}
