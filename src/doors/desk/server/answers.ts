import type { IncomingMessage, ServerResponse } from 'node:http'
import { deskScript } from '#generated/desk-script'
import { faultPages } from '#generated/fault-pages'
import { styles } from '../../../html/styles.ts'
import { questions } from '../../../writing/new/questions.ts'
import type { PathAnswer } from '../wire.ts'
import { checkAnswer } from './check-answer.ts'
import { type Desk, type Fields, text } from './desk.ts'
import { saveFigure } from './figure-files.ts'
import { formPosts } from './form-answers.ts'
import { machinesOf, makeCopy, makeNew } from './make-procedure.ts'
import { drawingsOf, pageOf, pictureOf, printOf } from './preview.ts'
import { readProcedureFile, renameProcedureFile, saveProcedureFile } from './procedure-files.ts'
import { procedureLine } from './procedure-list.ts'
import { jsonBody, nothing, send, sendJson } from './respond.ts'
import { framedPage, framedSheet, pictureAlone, shellPage } from './shell.ts'
import { stateStrips } from './state-strips.ts'

/** What is fetched by its address alone. */
const gets: Readonly<Record<string, (desk: Desk, query: URLSearchParams, response: ServerResponse) => unknown>> = {
  '': (_desk, _query, response) => {
    const { html, policy } = shellPage()
    send(response, 'text/html; charset=utf-8', html, policy)
  },
  'desk.js': (_desk, _query, response) => send(response, 'text/javascript; charset=utf-8', deskScript),
  'desk.css': (_desk, _query, response) => send(response, 'text/css; charset=utf-8', styles('base', 'desk')),
  list: ({ shelf }, _query, response) =>
    sendJson(
      response,
      shelf.files().map((file) => procedureLine(file, shelf.reader)),
    ),
  read: ({ shelf }, query, response) => {
    const answer = readProcedureFile(shelf, query.get('file') ?? '')
    return answer === null ? nothing(response) : sendJson(response, answer)
  },
  questions: ({ shelf }, _query, response) => sendJson(response, { questions, machines: machinesOf(shelf.reader) }),
  explain: (_desk, query, response) => {
    const name = query.get('name') ?? ''
    return Object.hasOwn(faultPages, name) ? sendJson(response, { page: faultPages[name] }) : nothing(response)
  },
  page: ({ workplace }, query, response) => {
    const looked = workplace.last(query.get('file') ?? '')
    const html = looked && pageOf(looked)
    return html === null ? nothing(response) : send(response, 'text/html; charset=utf-8', html, framedPage)
  },
  'sheet.pdf': async ({ workplace }, query, response) => {
    const looked = workplace.last(query.get('file') ?? '')
    const printed = looked && (await printOf(looked))
    if (printed?.kind !== 'made') return nothing(response)
    send(response, 'application/pdf', printed.made, framedSheet)
  },
  'sheet.svg': async ({ workplace }, query, response) => {
    const looked = workplace.last(query.get('file') ?? '')
    const printed = looked && (await pictureOf(looked))
    if (printed?.kind !== 'made') return nothing(response)
    send(response, 'image/svg+xml', printed.made.svg, pictureAlone)
  },
  // Asked for again and again: a stream that stays open would take one of the few connections of the browser for each tab.
  news: ({ happened }, query, response) => {
    const after = Number(query.get('after') ?? Number.NaN)
    const isKnown = Number.isInteger(after) && after >= 0 && after <= happened.length
    sendJson(response, { at: happened.length, news: isKnown ? happened.slice(after) : [] })
  },
}

/** What is asked with a body, and answered in JSON. */
const posts: Readonly<Record<string, (desk: Desk, fields: Fields) => unknown>> = {
  check: ({ shelf, workplace }, fields) => {
    const file = text(fields, 'file')
    if (!shelf.files().includes(file)) return null
    return checkAnswer(file, workplace.look(file, text(fields, 'text')), Number(fields.version))
  },
  save: ({ shelf }, fields) =>
    saveProcedureFile(shelf, text(fields, 'file'), text(fields, 'hash'), text(fields, 'text')),
  figure: ({ shelf }, fields) => saveFigure(shelf, text(fields, 'file'), text(fields, 'name'), text(fields, 'base64')),
  sheet: async ({ workplace }, fields) => {
    const looked = workplace.last(text(fields, 'file'))
    const printed = looked && (await pictureOf(looked))
    if (printed?.kind !== 'made') return printed
    const { pages, marks } = printed.made
    const starts = marks.filter(({ what }) => what === 'start' || what === 'phase')
    return { kind: 'made', pages, steps: starts.map(({ number, page, y }) => ({ number, page, y })) }
  },
  path: ({ workplace }, fields): PathAnswer | null => {
    const looked = workplace.last(text(fields, 'file'))
    if (looked === null) return null
    const { procedure } = looked.compiled
    return { states: procedure && stateStrips(procedure), drawings: drawingsOf(looked) }
  },
  ...formPosts,
  new: ({ shelf }, fields) => makeNew(shelf, fields),
  copy: ({ shelf }, fields) => makeCopy(shelf, text(fields, 'file'), text(fields, 'number'), text(fields, 'title')),
  rename: ({ shelf }, fields) => renameProcedureFile(shelf, text(fields, 'file'), text(fields, 'title')),
}

/** Answers what came through the gate; whatever is not in the two lists above gets nothing. */
export async function answer(desk: Desk, asked: string, request: IncomingMessage, response: ServerResponse) {
  if (request.method === 'GET') {
    const get = Object.hasOwn(gets, asked) ? gets[asked] : undefined
    if (get === undefined) return nothing(response)
    const query = new URLSearchParams((request.url ?? '').split('?').slice(1).join('?'))
    return await get(desk, query, response)
  }
  const post = Object.hasOwn(posts, asked) ? posts[asked] : undefined
  const fields = post && (await jsonBody(request))
  const value = post && fields ? await post(desk, fields) : null
  return value === null ? nothing(response) : sendJson(response, value)
}
