import type { Code } from 'mdast'
import { lineAndColumn } from '../../text/source-text.ts'
import { blockWithoutKeys, fenceLeftOpen, indentedCode, unknownFence } from '../faults/faults.ts'
import { readYaml } from '../yaml/read-yaml.ts'
import { yamlTextOfFence } from '../yaml/yaml-text.ts'
import { indentAt, spaces } from './columns.ts'
import type { BlockPiece } from './pieces.ts'
import { firstWords, placeOf, placeOfNode, type Reading, report, sliceOf, startOf } from './reading.ts'
import { reportFenceAsText } from './report-lines.ts'
import { reportRunOut } from './run-out.ts'

/** A fenced or indented code node: the block it holds, or null with a finding. */
export function readFence(reading: Reading, node: Code): BlockPiece | null {
  const at = placeOfNode(reading, node)
  if (isFenced(reading, node) && !isClosed(reading, node)) {
    if (!reportRunOut(reading, node)) reportOpen(reading, node)
    return { kind: 'block', block: null, isLeftOpen: true, at }
  }
  if (!isYaml(reading, node) && !isMeantAsYaml(reading, node)) {
    reportNoBlock(reading, node)
    return null
  }
  if (!isYaml(reading, node) || node.meta) reportInfo(reading, node)
  const fenceLine = lineAndColumn(reading.source, startOf(node)).line - 1
  const before = reading.findings.length
  const value = readYaml(reading, yamlTextOfFence(reading.source, node.value, fenceLine))
  if (value?.kind === 'map') return { kind: 'block', block: { map: value, at }, isLeftOpen: false, at }
  if (reading.findings.length === before) reportNoKeys(reading, node)
  return { kind: 'block', block: null, isLeftOpen: false, at }
}

const FENCE = /^(`{3,}|~{3,})/

function isFenced(reading: Reading, node: Code): boolean {
  return FENCE.test(sliceOf(reading, node))
}

export function isYaml(reading: Reading, node: Code): boolean {
  return isFenced(reading, node) && node.lang?.toLowerCase() === 'yaml'
}

/** No info string, or one that means the same: read as a block, and the finding says what to type. */
function isMeantAsYaml(reading: Reading, node: Code): boolean {
  if (!isFenced(reading, node)) return false
  if (node.lang?.toLowerCase() === 'yml') return true
  return !node.lang && (/^[a-z][\w-]*:(?:[ \t]|$)/m.test(node.value) || node.value.trim() === '')
}

/** The last line is a fence like the first, and no other block begins inside. */
function isClosed(reading: Reading, node: Code): boolean {
  const lines = sliceOf(reading, node).split(/\r\n|\n|\r/)
  const marks = FENCE.exec(lines[0] ?? '')?.[0] ?? ''
  const last = (lines.at(-1) ?? '').trim()
  if (lines.length < 2 || last.length < marks.length || last !== marks.charAt(0).repeat(last.length)) return false
  return !lines.slice(1, -1).some((line) => /^[\s>]*(?:`{3,}|~{3,})[ \t]*[^\s`~]/.test(line))
}

function reportOpen(reading: Reading, node: Code): void {
  const { source } = reading
  const start = startOf(node)
  const lineEnd = source.text.slice(start).search(/[\r\n]|$/) + start
  const inner = innerFence(reading, node)
  const marks = FENCE.exec(sliceOf(reading, node))?.[0] ?? '```'
  report(reading, fenceLeftOpen, {
    at: placeOf(reading, start, lineEnd),
    message: 'The block that begins here is not closed: it takes in what stands below it.',
    advice: node.lang
      ? `Type ${marks}, with ${spaces(indentAt(source, start))} before it, on a line of its own below the last line of the block.`
      : `Delete ${marks} if it closes nothing. Otherwise type ${marks}yaml here, and ${marks} below the last line of the block.`,
    ...(inner === null ? {} : { related: [{ at: inner, message: 'The next block begins here.' }] }),
  })
}

function innerFence(reading: Reading, node: Code) {
  const slice = sliceOf(reading, node)
  const match = /[\r\n][\s>]*((?:`{3,}|~{3,})[ \t]*[^\s`~][^\r\n]*)/.exec(slice)
  if (match?.[1] === undefined) return null
  const start = startOf(node) + match.index + match[0].length - match[1].length
  return placeOf(reading, start, start + match[1].length)
}

function reportInfo(reading: Reading, node: Code): void {
  const start = startOf(node)
  const line = /^[^\r\n]*/.exec(sliceOf(reading, node))?.[0] ?? ''
  const marks = FENCE.exec(line)?.[0] ?? ''
  const at = placeOf(reading, start, start + line.trimEnd().length)
  const info = line.slice(marks.length).trim()
  report(reading, unknownFence, {
    at,
    message: info === '' ? 'The block is not marked as one.' : `The block is marked "${firstWords(info)}".`,
    advice: `Type ${marks}yaml and nothing behind it.`,
    edit: { title: 'Mark the block', changes: [{ at, newText: `${marks}yaml` }] },
  })
}

/** A fence of another language, or text so far right that it counts as program code. */
export function reportNoBlock(reading: Reading, node: Code): void {
  const start = startOf(node)
  if (isFenced(reading, node)) {
    const line = /^[^\r\n]*/.exec(sliceOf(reading, node))?.[0] ?? ''
    report(reading, unknownFence, {
      at: placeOf(reading, start, start + line.trimEnd().length),
      message: `The fenced text below "${firstWords(line)}" is not printed: only blocks marked yaml are read.`,
      advice: 'Mark it ```yaml if it is a block. Otherwise write it as text, a bullet or a table, without the fence.',
    })
    return
  }
  const fence = /^[ \t]*((?:`{3,}|~{3,})[^\r\n]*)/m.exec(sliceOf(reading, node))
  if (fence?.[1] !== undefined) {
    const from = start + fence.index + fence[0].length - fence[1].length
    reportFenceAsText(reading, from, from + fence[1].trimEnd().length)
    return
  }
  report(reading, indentedCode, {
    at: placeOfNode(reading, node),
    message: `"${firstWords(node.value)}" is indented so far that it is read as program code and not printed.`,
    advice: 'Start it under the first letter of the text it belongs to.',
  })
}

function reportNoKeys(reading: Reading, node: Code): void {
  report(reading, blockWithoutKeys, {
    at: placeOfNode(reading, node),
    message:
      node.value.trim() === ''
        ? 'The block is empty.'
        : `The block holds "${firstWords(node.value)}" and no key with a value.`,
    advice: 'Type a key, a colon, a blank and its value on each line, or delete the block.',
  })
}
