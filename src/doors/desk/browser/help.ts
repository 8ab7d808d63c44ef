import { make, openDialog } from './elements.ts'

const keys: readonly (readonly [string, string])[] = [
  ['Tab', 'Leave the text, on to the notes, the page and the checks. Shift-Tab goes back.'],
  ['Ctrl-S', 'Save now. It saves by itself when you stop typing.'],
  ['Ctrl-Z, Ctrl-Y', 'Undo, redo.'],
  ['Ctrl-Enter', 'Open what stands at the cursor as a form; in a sentence, put something in.'],
  ['Ctrl-Space', 'Offer what could be typed here. Enter takes it, Escape does not.'],
  ['F8', 'Go to the next finding and read what to do. Shift-F8: the one before.'],
  ['Ctrl-F', 'Find words in the text.'],
  ['Ctrl-] and Ctrl-[', 'Move lines right or left.'],
  ['Escape', 'Close a window, or the form.'],
]

export function showHelp(): void {
  openDialog(
    'Help',
    make(
      'p',
      {},
      'Write on the left as you would tell a good apprentice. On the right stands what the technician gets. Below stands what is to be put right.',
    ),
    make(
      'p',
      {},
      'A phase is a line that begins with ##. A step is a line that begins with 1. What the checker must know, such as a torque, a reading or who signs, you put in with “Put in…”: it asks you, and writes it for you.',
    ),
    make(
      'p',
      {},
      'The checker finds what is missing or contradicts itself. It does not know your machine. Local law, site rules and the maker’s manual come first.',
    ),
    make('h3', {}, 'Without the mouse'),
    make(
      'table',
      { class: 'keys' },
      make(
        'tbody',
        {},
        ...keys.map(([key, does]) =>
          make('tr', {}, make('th', { scope: 'row' }, make('kbd', {}, key)), make('td', {}, does)),
        ),
      ),
    ),
  )
}
