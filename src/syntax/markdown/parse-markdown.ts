import type { Root } from 'mdast'
import { gfmTableFromMarkdown } from 'mdast-util-gfm-table'
import { gfmTable } from 'micromark-extension-gfm-table'
import remarkParse from 'remark-parse'
import { type Processor, unified } from 'unified'

/** CommonMark and tables; nothing else, so that what an author sees elsewhere is what is read here. */
const parser = unified().use(remarkParse).use(tables).freeze()

function tables(this: Processor): void {
  const data = this.data()
  data.micromarkExtensions = [...(data.micromarkExtensions ?? []), gfmTable()]
  data.fromMarkdownExtensions = [...(data.fromMarkdownExtensions ?? []), gfmTableFromMarkdown()]
}

export function parseMarkdown(text: string): Root {
  return parser.parse(text)
}
