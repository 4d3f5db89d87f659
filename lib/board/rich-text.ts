import * as Y from 'yjs'
import * as z from 'zod/mini'

/**
 * Text that people write together, as a plain tree. Only what the editor offers: paragraphs, lists, bold and italic.
 * Nothing in it can carry an address, a style or a script.
 */
export interface TextRun {
  readonly text: string
  readonly bold?: true
  readonly italic?: true
}
export interface TextBlock {
  readonly type: 'paragraph' | 'bulletList' | 'orderedList' | 'listItem'
  readonly content: readonly (TextBlock | TextRun)[]
}
export type RichText = readonly TextBlock[]

/** What a note holds at most; the editor keeps to it, the guard insists on it. */
export const richTextLimits = { characters: 20_000, depth: 12 } as const
const blockNames: readonly string[] = ['paragraph', 'bulletList', 'orderedList', 'listItem']
const markNames: readonly string[] = ['bold', 'italic']

const TextRunSchema = z.strictObject({
  text: z.string(),
  bold: z.optional(z.literal(true)),
  italic: z.optional(z.literal(true)),
})
const TextBlockSchema: z.ZodMiniType<TextBlock> = z.lazy(() =>
  z.strictObject({
    type: z.enum(['paragraph', 'bulletList', 'orderedList', 'listItem']),
    content: z.array(z.union([TextBlockSchema, TextRunSchema as z.ZodMiniType<TextRun>])),
  }),
)
export const RichText: z.ZodMiniType<RichText> = z.array(TextBlockSchema).check(
  z.refine((blocks) => plainText(blocks).length <= richTextLimits.characters, {
    message: `at most ${richTextLimits.characters} characters`,
  }),
)

/** The words alone, a line a paragraph. */
export function plainText(text: RichText): string {
  const lines: string[] = []
  const walk = (block: TextBlock) => {
    if (block.type === 'paragraph') lines.push(block.content.map((run) => ('text' in run ? run.text : '')).join(''))
    else for (const child of block.content) if (!('text' in child)) walk(child)
  }
  for (const block of text) walk(block)
  return lines.join('\n')
}

/** Why a shared fragment is not text of the kind above; the guard refuses the update that made it so. */
export class DisguisedText extends Error {}

/** @throws DisguisedText for any node, mark, attribute or embed that the editor does not make */
export function readFragment(fragment: Y.XmlFragment): RichText {
  return (fragment.toArray() as unknown[]).map((child) => readBlock(child, 1))
}

function readBlock(node: unknown, depth: number): TextBlock {
  if (!(node instanceof Y.XmlElement) || node.constructor !== Y.XmlElement) throw new DisguisedText('only text blocks')
  if (!blockNames.includes(node.nodeName)) throw new DisguisedText(`block "${node.nodeName}"`)
  if (depth > richTextLimits.depth) throw new DisguisedText('nested too deeply')
  checkAttributes(node)
  const content = (node.toArray() as unknown[]).flatMap((child): readonly (TextBlock | TextRun)[] =>
    child instanceof Y.XmlText ? readRuns(child) : [readBlock(child, depth + 1)],
  )
  return { type: node.nodeName as TextBlock['type'], content }
}

/** The editor writes the first number of an ordered list, and its kind (null); nothing else. */
function checkAttributes(node: Y.XmlElement): void {
  for (const [name, value] of Object.entries(node.getAttributes() as Record<string, unknown>)) {
    const known =
      node.nodeName === 'orderedList' &&
      ((name === 'start' && Number.isInteger(value)) || (name === 'type' && value === null))
    if (!known) throw new DisguisedText(`attribute "${name}"`)
  }
}

function readRuns(text: Y.XmlText): TextRun[] {
  if (Object.keys(text.getAttributes() as object).length > 0) throw new DisguisedText('attributes on text')
  const delta = text.toDelta() as { insert: unknown; attributes?: Record<string, unknown> }[]
  return delta.map(({ insert, attributes = {} }) => {
    if (typeof insert !== 'string') throw new DisguisedText('embedded object')
    for (const name of Object.keys(attributes)) if (!markNames.includes(name)) throw new DisguisedText(`mark "${name}"`)
    return {
      text: insert,
      ...(attributes.bold ? { bold: true as const } : {}),
      ...(attributes.italic ? { italic: true as const } : {}),
    }
  })
}

/** The shared form of a text, for a new record. */
export function fragmentOf(text: RichText): Y.XmlFragment {
  const fragment = new Y.XmlFragment()
  fragment.insert(0, text.map(elementOf))
  return fragment
}

function elementOf(block: TextBlock): Y.XmlElement {
  const element = new Y.XmlElement(block.type)
  const runs = block.content.filter((child): child is TextRun => 'text' in child)
  const blocks = block.content.filter((child): child is TextBlock => !('text' in child))
  element.insert(0, [...(runs.length > 0 ? [sharedRuns(runs)] : []), ...blocks.map(elementOf)])
  return element
}

/** One shared text of several runs. */
function sharedRuns(runs: readonly TextRun[]): Y.XmlText {
  const shared = new Y.XmlText()
  shared.applyDelta(
    runs.map(({ text, bold, italic }) => ({
      insert: text,
      attributes: { ...(bold && { bold }), ...(italic && { italic }) },
    })),
  )
  return shared
}

/** Plain words as text, a paragraph a line. */
export const paragraphs = (words: string): RichText =>
  words.split('\n').map((line) => ({ type: 'paragraph', content: line === '' ? [] : [{ text: line }] }))
