import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { type IncomingHttpHeaders, request } from 'node:http'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { dustFan, fanFile, openDesk, type TestDesk } from './a-desk.ts'

interface Got {
  readonly status: number
  readonly body: string
  readonly headers: IncomingHttpHeaders
}

let desk: TestDesk
let port: number
let token: string

beforeAll(async () => {
  desk = await openDesk({ [fanFile]: dustFan })
  const address = new URL(desk.address)
  port = Number(address.port)
  token = address.pathname.split('/')[1] ?? ''
  writeFileSync(join(desk.root, 'secret.txt'), 'not for anybody')
  mkdirSync(join(desk.root, 'procedures', 'led-out'))
  symlinkSync('/etc/hostname', join(desk.root, 'procedures', 'led-out', 'led-out.md'))
})
afterAll(() => desk.remove())

/** As typed into a socket: nothing is tidied up on the way, as a browser or `fetch` would. */
function get(path: string, headers: Readonly<Record<string, string>> = {}, body?: unknown): Promise<Got> {
  return new Promise((got, failed) => {
    const text = body === undefined ? '' : JSON.stringify(body)
    const sent = request(
      {
        host: '127.0.0.1',
        port,
        path,
        method: body === undefined ? 'GET' : 'POST',
        headers: { Host: `127.0.0.1:${port}`, 'Content-Type': 'application/json', ...headers },
      },
      (response) => {
        let all = ''
        response.on('data', (piece) => {
          all += piece
        })
        response.on('end', () => got({ status: response.statusCode ?? 0, body: all, headers: response.headers }))
      },
    )
    sent.on('error', failed)
    sent.end(text)
  })
}

const own = () => ({ Origin: `http://127.0.0.1:${port}` })

describe('the gate of the desk', () => {
  it('lets the own page in', async () => {
    expect((await get(`/${token}/`)).body).toContain('<title>Desk</title>')
    expect(JSON.parse((await get(`/${token}/list`)).body)).toHaveLength(1)
    const read = JSON.parse((await get(`/${token}/read?file=${encodeURIComponent(fanFile)}`)).body)
    expect(read.text).toBe(dustFan)
  })

  it('listens on this machine only', () => {
    expect(desk.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/[\w-]{32}\/$/)
  })

  it('gives nothing without the token', async () => {
    const paths = [
      '/',
      '/list',
      '/desk.js',
      `/${token}`,
      `/${token.slice(1)}/list`,
      `/${token.toLowerCase()}x/list`,
      `/x/${token}/list`,
      `//${token}/list`,
      `/list?token=${token}`,
      `/%2e/${token}/list`,
      `/${token}%2Flist`,
    ]
    for (const path of paths) expect([path, await nothing(get(path))]).toEqual([path, true])
  })

  it('gives nothing to a name made to point here, or to the page of another', async () => {
    const headers: readonly Readonly<Record<string, string>>[] = [
      { Host: `desk.example:${port}` },
      { Host: '127.0.0.1' },
      { Host: `127.0.0.1.example:${port}` },
      { Host: `127.0.0.1:${port + 1}` },
      { Origin: 'http://desk.example' },
      { Origin: 'null' },
      { Origin: `http://127.0.0.1:${port + 1}` },
      { Origin: `https://127.0.0.1:${port}` },
      { 'Sec-Fetch-Site': 'cross-site' },
      { 'Sec-Fetch-Site': 'same-site' },
    ]
    for (const one of headers) expect([one, await nothing(get(`/${token}/list`, one))]).toEqual([one, true])
  })

  it('writes only for a page that says from where it is', async () => {
    const { hash } = JSON.parse((await get(`/${token}/read?file=${encodeURIComponent(fanFile)}`)).body)
    const save = { file: fanFile, hash, text: 'gone' }
    const before = readFileSync(join(desk.root, fanFile), 'utf8')
    expect(await nothing(get(`/${token}/save`, {}, save))).toBe(true)
    expect(await nothing(get(`/${token}/save`, { Origin: 'http://desk.example' }, save))).toBe(true)
    expect(await nothing(get(`/${token}/save`, { ...own(), 'Content-Type': 'text/plain' }, save))).toBe(true)
    expect(await nothing(get(`/x${token}/save`, own(), save))).toBe(true)
    expect(readFileSync(join(desk.root, fanFile), 'utf8')).toBe(before)
    const saved = await get(`/${token}/save`, own(), { ...save, text: `${dustFan}\n` })
    expect(JSON.parse(saved.body).kind).toBe('saved')
  })

  it('allows no page to read an answer, to frame the desk or to guess what a file is', async () => {
    const { headers } = await get(`/${token}/`)
    expect(headers['access-control-allow-origin']).toBeUndefined()
    expect(headers['content-security-policy']).toContain("frame-ancestors 'none'")
    expect(headers['content-security-policy']).not.toContain('unsafe')
    expect(headers['x-content-type-options']).toBe('nosniff')
    expect(headers['referrer-policy']).toBe('no-referrer')
    expect((await get('/')).headers['content-security-policy']).toContain("default-src 'none'")
  })

  it('knows no file but the procedures of the library', async () => {
    const files = [
      '../secret.txt',
      'secret.txt',
      'witnessmark.yaml',
      'shared/README.md',
      'shared/fragments/lock-and-try.md',
      '/etc/passwd',
      'procedures/../secret.txt',
      'procedures/led-out/led-out.md',
      `./${fanFile}`,
      `procedures/dust-fan-belts/..%2f..%2fsecret.txt`,
      'procedures\\dust-fan-belts\\dust-fan-belts.md',
      `${fanFile}\0`,
      '',
    ]
    for (const file of files) {
      const typed = encodeURIComponent(file)
      for (const ask of ['read', 'page', 'sheet.pdf'])
        expect([file, ask, await nothing(get(`/${token}/${ask}?file=${typed}`))]).toEqual([file, ask, true])
      expect(await nothing(get(`/${token}/check`, own(), { file, text: '# x', version: 1 }))).toBe(true)
      const saved = await get(`/${token}/save`, own(), { file, hash: '', text: 'gone' })
      expect(JSON.parse(saved.body).kind).toBe('failed')
      const figure = await get(`/${token}/figure`, own(), { file, name: 'a.svg', base64: btoa('<svg/>') })
      expect(JSON.parse(figure.body).kind).toBe('failed')
    }
    for (const path of ['../secret.txt', '..%2fsecret.txt', '%2e%2e/secret.txt', 'constructor', '__proto__', 'shared/'])
      expect([path, await nothing(get(`/${token}/${path}`))]).toEqual([path, true])
    expect(readFileSync(join(desk.root, 'secret.txt'), 'utf8')).toBe('not for anybody')
  })

  it('makes new files inside the library only', async () => {
    const made = await get(`/${token}/new`, own(), { title: '../../../etc/passwd', number: 'x' })
    expect(JSON.parse(made.body)).toEqual({ kind: 'made', file: 'procedures/etc-passwd/etc-passwd.md' })
    const figure = await get(`/${token}/figure`, own(), {
      file: fanFile,
      name: '../../up/../.jack & stands.PNG.svg',
      base64: btoa('<svg xmlns="http://www.w3.org/2000/svg"/>'),
    })
    expect(JSON.parse(figure.body)).toEqual({ kind: 'made', path: 'figures/up-jack-stands-png.svg' })
    const page = await get(`/${token}/figure`, own(), { file: fanFile, name: 'a.png', base64: btoa('<html></html>') })
    expect(JSON.parse(page.body)).toEqual({ kind: 'failed', because: 'it is no PNG, JPEG or SVG picture.' })
    symlinkSync('/tmp', join(desk.root, 'procedures/etc-passwd/figures'))
    const out = await get(`/${token}/figure`, own(), {
      file: 'procedures/etc-passwd/etc-passwd.md',
      name: 'a.svg',
      base64: btoa('<svg/>'),
    })
    expect(JSON.parse(out.body).kind).toBe('failed')
  })

  it('takes no endless body', async () => {
    const answer = await get(`/${token}/check`, own(), { file: fanFile, text: 'x'.repeat(13 * 1024 * 1024) }).catch(
      () => ({ status: 404, body: '' }),
    )
    expect([answer.status, answer.body]).toEqual([404, ''])
  })
})

async function nothing(got: Promise<Got>): Promise<boolean> {
  const { status, body } = await got
  return status === 404 && body === ''
}
