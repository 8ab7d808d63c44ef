import { describe, expect, it } from 'vitest'
import { importsOf, sourceFiles, textOf, withoutComments } from './source-files.ts'

/** Only these know disk, protocol, DOM, clock and chance; everything else gives the same answer anywhere, any day. */
const open = ['src/doors/', 'src/devices/']

const shut = sourceFiles.filter((path) => !open.some((folder) => path.startsWith(folder)))

const windows: readonly { readonly to: string; readonly seen: RegExp }[] = [
  { to: 'the process', seen: /(?<![.\w'"-])process\./ },
  { to: 'the console', seen: /(?<![.\w])console\./ },
  { to: 'the clock', seen: /\bDate\.now\b|\bnew Date\(\s*\)|\bperformance\.now\b|(?<![.\w])set(?:Timeout|Interval)\(/ },
  { to: 'chance', seen: /\bMath\.random\b|\bgetRandomValues\b|\brandomUUID\b/ },
  { to: 'the machine’s own language', seen: /\.toLocale\w*String\(\s*\)|\.localeCompare\(\s*[^,()]*\)/ },
  {
    to: 'the DOM',
    seen: /(?<![.\w])window\.|\bglobalThis\.(?!crypto\b)|\bdocument\.(?:create|query|getElement|addEvent|body|head)\w*|\bHTML\w*Element\b|\blocalStorage\b|(?<![.\w])navigator\./,
  },
  { to: 'the network', seen: /(?<![.\w])fetch\(|\bXMLHttpRequest\b|\bWebSocket\b/ },
]

describe('closed windows', () => {
  it('imports no module of Node outside doors and devices', () => {
    expect(shut.length).toBeGreaterThan(20)
    const wrong = shut.flatMap((path) =>
      importsOf(textOf(path))
        .filter((typed) => /^(?:node:|fs$|path$|os$|crypto$|url$)/.test(typed))
        .map((typed) => `${path}: ${typed}`),
    )
    expect(wrong).toEqual([])
  })

  it.each(windows)('does not look at $to outside doors and devices', ({ seen }) => {
    const wrong = shut.flatMap((path) =>
      withoutComments(textOf(path))
        .split('\n')
        .filter((line) => seen.test(line))
        .map((line) => `${path}: ${line.trim()}`),
    )
    expect(wrong).toEqual([])
  })

  it('would see each of them', () => {
    const looks = [
      'const home = process.env.HOME',
      'console.log(1)',
      'const now = new Date()',
      'const chance = Math.random()',
      'names.sort((a, b) => a.localeCompare(b))',
      'document.createElement("p")',
      'await fetch(address)',
    ]
    expect(looks.map((line) => windows.find((window) => window.seen.test(line))?.to)).toEqual(
      windows.map(({ to }) => to),
    )
  })
})
