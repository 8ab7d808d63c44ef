import type { FaultKind } from '../../findings/finding.ts'

function error(name: string, title: string): FaultKind {
  return { name: `syntax/${name}`, severity: 'error', title }
}

function advice(name: string, title: string): FaultKind {
  return { name: `syntax/${name}`, severity: 'advice', title }
}

// The text as a whole.
export const unreadableLetter = error('unreadable-letter', 'The file holds letters that cannot be read or seen.')
export const beyondLimits = error('beyond-limits', 'The text is longer or nested deeper than the reader takes.')
export const emptyFile = error('empty-file', 'The file holds no words.')

// The frame of a document.
export const frontMatterMissing = error('front-matter-missing', 'The file does not begin with front matter.')
export const frontMatterBelowTop = error('front-matter-below-top', 'The front matter does not start on the first line.')
export const frontMatterOpen = error('front-matter-open', 'The front matter has no closing line.')
export const noPhase = error('no-phase', 'The procedure has no phase.')
export const titleOutOfPlace = error('title-out-of-place', 'A title stands somewhere other than at the top.')
export const headingOutOfPlace = error('heading-out-of-place', 'A heading stands where no phase or branch can begin.')
export const headingWithoutWords = error('heading-without-words', 'A heading has no words.')
export const headingWithoutBlank = error('heading-without-blank', 'A line begins like a heading but is read as text.')
export const underlinedHeading = error('underlined-heading', 'A line below a text turns the text into a heading.')
export const branchWithoutPhase = error('branch-without-phase', 'A branch stands before the first phase.')
export const marksInHeading = error('marks-in-heading', 'A heading holds something that is not plain words.')

// Steps.
export const stepOutsidePhase = error('step-outside-phase', 'A numbered step stands before the first phase.')
export const stepWithoutText = error('step-without-text', 'A step has no instruction.')
export const stepInParagraph = error('step-in-paragraph', 'A line begins like a step but is read as text.')
export const stepNumberOutOfOrder: FaultKind = {
  name: 'syntax/step-number-out-of-order',
  severity: 'warning',
  title: 'A typed step number does not follow the one before it.',
}
export const substepTooDeep = error('substep-too-deep', 'A sub-step has sub-steps of its own.')
export const stepsInBullet = error('steps-in-bullet', 'Numbered lines stand where no step can stand.')
export const textOutsideStep = error('text-outside-step', 'A text stands between or behind steps but in none of them.')
export const actWithDetails = error('act-with-details', 'A bullet with a role holds more than one paragraph.')

// Ids.
export const unusableId = error('unusable-id', 'An id is spelled in a way that nothing can refer to.')
export const misplacedId = error('misplaced-id', 'An id stands where nothing takes one.')
export const duplicateId = error('duplicate-id', 'Two places have the same id.')

// Blocks and fences.
export const blockOutsideStep = error('block-outside-step', 'A block slipped out of its step.')
export const blockAfterSteps = error('block-after-steps', 'A block stands behind the steps of its place.')
export const secondBlock = error('second-block', 'A place has a second block.')
export const blockOutOfPlace = error('block-out-of-place', 'A block stands where no block can stand.')
export const fenceLeftOpen = error('fence-left-open', 'A block is not closed and takes in what follows.')
export const fenceTooDeep = error('fence-too-deep', 'A fence is read as plain text.')
export const unknownFence = error('unknown-fence', 'A fenced text is not marked as a block.')
export const indentedCode = error('indented-code', 'A text is indented so far that it is read as program code.')

// Marks that no output prints.
export const hiddenByComment = error('hidden-by-comment', 'A comment hides a step, a block or a heading.')
export const comment = advice('comment', 'A comment is not printed.')
export const rawHtml = error('raw-html', 'The text holds HTML.')
export const refusedLink = error('refused-link', 'A link leads to an address that no output may carry.')
export const detachedLink = error('detached-link', 'A link and its address stand apart.')
export const footnote = error('footnote', 'The text holds a footnote.')
export const misplacedFigure = error('misplaced-figure', 'A picture stands where none can be printed.')
export const webFigure = error('web-figure', 'A picture is not a file of the library.')
export const ornament = advice('ornament', 'A mark is not printed.')

// YAML.
export const blockWithoutKeys = error('block-without-keys', 'A block does not consist of keys and values.')
export const emptyValue = error('empty-value', 'A key has no value.')
export const commaInBraces = error('comma-in-braces', 'A comma inside braces or brackets splits a value.')
export const cutOffText = error('cut-off-text', 'A text behind a # would be cut off.')
export const splitSentence = error('split-sentence', 'A colon and a blank split a sentence.')
export const droppedTag = error('dropped-tag', 'A word behind ! would be dropped.')
export const alias = error('alias', 'A value begins with & or *.')
export const mergeKey = error('merge-key', 'A block merges another.')
export const duplicateKey = error('duplicate-key', 'A key stands twice in one place.')
export const reservedKey = error('reserved-key', 'A name is reserved by the machine.')
export const unusableKey = error('unusable-key', 'A key is not a plain word.')
export const tabIndent = error('tab-indent', 'A line of a block begins with a tab.')
export const documentMarker = error('document-marker', 'A line of dashes or dots ends the block early.')
export const reservedStart = error('reserved-start', 'A value begins with a sign that YAML keeps for itself.')
export const unreadableBlock = error('unreadable-block', 'A block cannot be read as YAML.')
