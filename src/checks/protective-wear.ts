/** Something that people wear against a danger, as messages and lists call it. */
export interface Protection {
  readonly id: string
  readonly name: string
  /** As it is called in a sentence. */
  readonly words: RegExp
  /** As a list calls it. */
  readonly listedAs: RegExp
  /** A control that is this and nothing more: "face shield". */
  readonly alone: RegExp
}

export const protections: readonly Protection[] = [
  wear('gloves', 'gloves', 'gloves?', 'gloves?'),
  wear('face-shield', 'a face shield', 'face[- ]shields?|visors?', 'face shield|visor|mask|helmet'),
  wear(
    'safety-glasses',
    'eye protection',
    'safety glasses|goggles|eye protection',
    'glasses|goggles|eye|face shield|visor',
  ),
  wear(
    'hearing-protection',
    'hearing protection',
    '(?:hearing|ear) (?:protection|defenders)|ear[- ]?(?:muffs|plugs)',
    'hearing|ear',
  ),
  wear('hard-hat', 'a hard hat', 'hard hats?|safety helmets?', 'hat|helmet'),
  wear('respirator', 'a respirator', 'respirators?|dust masks?|breathing apparatus', 'respirator|mask|breathing'),
  wear('harness', 'a harness', '(?:fall[- ]arrest |safety )?harness(?:es)?', 'harness'),
  wear('apron', 'an apron', 'aprons?', 'apron'),
]

/** Whether a sentence tells people to wear it; one that forbids it or tells them to take it off does not. */
export function wornBy(sentence: string, { words }: Protection): boolean {
  if (!/\b(?:wear|wears|worn|put on|with|in|use)\b/i.test(sentence)) return false
  return words.test(sentence) && !/\b(?:no|not|never|without|take off|off)\b/i.test(sentence)
}

function wear(id: string, name: string, words: string, listedAs: string): Protection {
  return {
    id,
    name,
    words: new RegExp(`\\b(?:${words})\\b`, 'i'),
    listedAs: new RegExp(`\\b(?:${listedAs})\\b`, 'i'),
    alone: new RegExp(`^(?:[a-z]+(?:-[a-z]+)? )?(?:${words})$`, 'i'),
  }
}
