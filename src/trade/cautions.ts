/** What stands under results that people can be hurt by. */

export const localFirst = 'Local law, site rules and the maker’s instructions come first.'

export const liftCaution = `A lift is planned and led by a qualified person. ${localFirst}`

/** What every lift says besides its numbers. Common practice, no published source. */
export const liftMustSay = [
  'Trial lift: raise it a hand’s width, stop, look at every leg, hitch and edge, then go on.',
  'Tag line: someone guides the load from outside its path; nobody is under it.',
] as const

export const supportCaution = `Firm level ground, plumb supports, nobody under the load before it is supported. A qualified person decides. ${localFirst}`

export const handlingCaution = `For two hands, a good floor and an unhurt person. A trained person judges the work. ${localFirst}`

export const scheduleCaution = 'A plan of times is no reason to hurry a step that can hurt someone.'

export const thresholdCaution = `A threshold is a floor, not a permit. The competent person on site decides. ${localFirst}`

export const releaseCaution = `Lock the supply out first; let it out slowly; no hand looks for a leak. What shows zero may be blocked: prove it. ${localFirst}`
