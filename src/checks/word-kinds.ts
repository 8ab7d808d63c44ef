const words = (list: string): ReadonlySet<string> => new Set(list.trim().split(/\s+/))

/** Words before a thing: what follows an order and is one of these makes the order sure. */
export const determiners = words(`
  the a an this that these those all both each every either any no another such same other next first last
  my your his her its our their one two three four five six seven eight nine ten eleven twelve twenty half
  several many few some more most enough what which whose`)

export const pronouns = words(`
  it them him her you me us himself itself yourself themselves each everyone everybody nobody someone somebody anyone anybody
  nothing everything something anything i we they he she there who whoever`)

/** Words of place, direction, time and manner, and those that begin a part of a sentence. */
export const particles = words(`
  off out on up down in into onto away back over to at from with without for by through against along around round about
  between under above below behind beside until till than as so that if when while where whether how before after across
  towards toward inside outside within upwards downwards forward forwards backward backwards clear apart together home open
  shut free once again only further straight aside upright loose and or but near every not first last per via during`)

/** Words that can only say something, never order it. */
export const finite = words(`
  is are was were am isn't aren't must should shall will won't can cannot can't may might could would has had does goes takes
  gets needs comes gives makes becomes remains belongs wants ought doesn't has hasn't`)

/** Words that may stand before an order without changing it. */
export const softeners = words(`
  then now next again also first finally afterwards lastly instead still always thereafter later
  meanwhile together even just carefully`)

/** Words that open a condition, a place, a time, a manner or a purpose before the order. */
export const openers = words(`
  if when whenever where wherever once after before with without at on in from for to unless until till while using by during as
  because since though although provided between behind below above beside under near over along inside outside within
  upon per via except apart through despite given should`)

export const conditionOpeners = words('if when whenever where once unless after before with until while provided')

export const joiners = words('and then or but')

/** What begins a part of a sentence with a subject of its own. */
export const subordinators = words(
  'that which who until till while if when where whether unless because since what how as than before after so once',
)

/** Verbs behind which a whole sentence may follow without "that". */
export const tellingVerbs = words(
  'check see make ensure verify confirm look ask tell know show prove find read watch note assume observe be feel report let have',
)

/** Verbs that need no thing behind them. */
export const aloneVerbs = words(
  'wait listen stop read look go come leave walk climb sit stand check rest repeat restart start tag bag watch kneel return exit enter continue discard dry rinse inspect record clean test measure lock grease wash',
)

/** Names of doings: `Oil change`, `Brake release` order nothing. */
const eventNouns = words(
  'change release check test removal replacement adjustment inspection service repair fitting refit lubrication alignment cleaning start-up shutdown overhaul',
)

const irregularParticiples = words(`
  taken given shown driven drawn done put set cut let held hung kept laid left lit made read run sent shut slid spun swung thrown
  torn worn wound written bent bound brought built caught fed found ground led lost met split struck stuck told wet broken
  chosen hidden risen shaken frozen known grown blown sunk swept worn undone redrawn rewound`)

export const isParticiple = (word: string): boolean => /.{2}ed$/.test(word) || irregularParticiples.has(word)

export const isEventNoun = (word: string): boolean => eventNouns.has(word) || /.{3}(?:tion|sion|ment)$/.test(word)

const lyButNoAdverb = words('apply supply comply rely multiply reply fly ply assembly imply only family belly')

export const isAdverb = (word: string): boolean => /.{2}ly$/.test(word) && !lyButNoAdverb.has(word)

export const isNumber = (word: string): boolean => /^[\d…±]/.test(word)
