import { existsSync } from 'node:fs'
import { mkdtemp, rename, rm, writeFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { type BrowserContext, chromium } from 'playwright-core'

/** A browser to test pages with, and the way to be rid of it again. */
export interface TestBrowser {
  readonly context: BrowserContext
  readonly close: () => Promise<void>
}

interface Candidate {
  readonly executablePath: string
  readonly env: Readonly<Record<string, string>>
}

const installed = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome']

const quiet = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/**
 * Opens the browser of the machine, else the one that comes as a development package: a fresh clone needs no other.
 * `WITNESSMARK_TEST_BROWSER=packaged` asks for the latter. Every call has a profile of its own.
 */
export async function openBrowser(options: {
  readonly width?: number
  readonly height?: number
  readonly dark?: boolean
}): Promise<TestBrowser> {
  const { executablePath, env } = await findBrowser()
  const profile = await mkdtemp(join(tmpdir(), 'witnessmark-profile-'))
  const context = await chromium.launchPersistentContext(profile, {
    executablePath,
    headless: true,
    args: quiet,
    env: { ...definedOnly(process.env), ...env },
    viewport: { width: options.width ?? 820, height: options.height ?? 1180 },
    colorScheme: options.dark ? 'dark' : 'light',
    reducedMotion: 'reduce',
    acceptDownloads: true,
    timeout: 45_000,
  })
  return {
    context,
    close: async () => {
      await context.close()
      await rm(profile, { recursive: true, force: true, maxRetries: 5 })
    },
  }
}

async function findBrowser(): Promise<Candidate> {
  const wanted = process.env.WITNESSMARK_TEST_BROWSER
  const own = wanted === 'packaged' ? undefined : installed.find((path) => existsSync(path))
  return own === undefined ? packagedBrowser() : { executablePath: own, env: {} }
}

/** That browser ends itself where a letter is in none of the fonts it knows, so it is told of one that has them all. */
const fontsInstalledWithUs = `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
<dir>${join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf')}</dir>
<alias><family>system-ui</family><prefer><family>DejaVu Sans</family></prefer></alias>
<alias><family>sans-serif</family><prefer><family>DejaVu Sans</family></prefer></alias>
<alias><family>monospace</family><prefer><family>DejaVu Sans Mono</family></prefer></alias>
</fontconfig>
`

/** Unpacked once, beside other temporary files; a second process that unpacks at the same time does no harm. */
async function packagedBrowser(): Promise<Candidate> {
  const folder = join(tmpdir(), 'witnessmark-browser-143.0.4')
  if (!existsSync(join(folder, 'chromium'))) await unpackInto(folder)
  return {
    executablePath: join(folder, 'chromium'),
    env: { LD_LIBRARY_PATH: join(folder, 'al2023', 'lib'), FONTCONFIG_FILE: join(folder, 'our-fonts.conf') },
  }
}

async function unpackInto(folder: string): Promise<void> {
  const unpacking = await mkdtemp(`${folder}-unpacking-`)
  const before = { TMPDIR: process.env.TMPDIR, AWS_EXECUTION_ENV: process.env.AWS_EXECUTION_ENV }
  // The package unpacks to the temporary folder, and its shared libraries only where it believes to be on that host.
  process.env.TMPDIR = unpacking
  process.env.AWS_EXECUTION_ENV = 'nodejs20.x'
  try {
    const { default: packaged } = await import('@sparticuz/chromium')
    await packaged.executablePath()
  } finally {
    for (const [name, value] of Object.entries(before)) {
      if (value === undefined) delete process.env[name]
      else process.env[name] = value
    }
  }
  await writeFile(join(unpacking, 'our-fonts.conf'), fontsInstalledWithUs)
  try {
    await rename(unpacking, folder)
  } catch {
    await rm(unpacking, { recursive: true, force: true })
  }
}

function definedOnly(env: NodeJS.ProcessEnv): Record<string, string> {
  return Object.fromEntries(
    Object.entries(env).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])),
  )
}
