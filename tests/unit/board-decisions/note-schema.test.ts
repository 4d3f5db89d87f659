import { getSchema } from '@tiptap/core'
import { prosemirrorJSONToYXmlFragment, yXmlFragmentToProsemirrorJSON } from '@tiptap/y-tiptap'
import { expect, test } from 'vitest'
import * as Y from 'yjs'
import { charactersOf, faultOf, plainSlice } from '../../../app/board/decisions/note-limits.ts'
import { noteExtensions } from '../../../app/board/decisions/note-schema.ts'
import {
  fragmentOf,
  paragraphs,
  plainText,
  RichText,
  readFragment,
  richTextLimits,
} from '../../../lib/board/rich-text.ts'

const schema = getSchema(noteExtensions)
const text = (words: string, ...marks: string[]) => ({
  type: 'text',
  text: words,
  marks: marks.map((type) => ({ type })),
})
const paragraph = (...content: object[]) => ({ type: 'paragraph', content })
const item = (...content: object[]) => ({ type: 'listItem', content })
const documentOf = (...content: object[]) => ({ type: 'doc', content })

/** What the editor would write into the shared document. */
function written(json: object): Y.XmlFragment {
  const fragment = new Y.Doc().getXmlFragment('body')
  prosemirrorJSONToYXmlFragment(schema, json, fragment)
  return fragment
}

test('the editor knows the nodes and marks of a note and no others', () => {
  expect(Object.keys(schema.nodes).sort()).toEqual(
    ['bulletList', 'doc', 'listItem', 'orderedList', 'paragraph', 'text'].sort(),
  )
  expect(Object.keys(schema.marks).sort()).toEqual(['bold', 'italic'])
})

test('what the editor writes, attributes and all, is text that the guard reads', () => {
  const fragment = written(
    documentOf(
      paragraph(
        text('Couple to the '),
        text('stapes head', 'bold'),
        text(' and ', 'italic'),
        text('clip', 'bold', 'italic'),
      ),
      {
        type: 'bulletList',
        content: [
          item(paragraph(text('one')), { type: 'orderedList', attrs: { start: 3 }, content: [item(paragraph())] }),
        ],
      },
      { type: 'orderedList', content: [item(paragraph(text('first')))] },
    ),
  )
  const read = RichText.parse(readFragment(fragment))
  expect(read).toEqual([
    {
      type: 'paragraph',
      content: [
        { text: 'Couple to the ' },
        { text: 'stapes head', bold: true },
        { text: ' and ', italic: true },
        { text: 'clip', bold: true, italic: true },
      ],
    },
    {
      type: 'bulletList',
      content: [
        {
          type: 'listItem',
          content: [
            { type: 'paragraph', content: [{ text: 'one' }] },
            { type: 'orderedList', content: [{ type: 'listItem', content: [{ type: 'paragraph', content: [] }] }] },
          ],
        },
      ],
    },
    {
      type: 'orderedList',
      content: [{ type: 'listItem', content: [{ type: 'paragraph', content: [{ text: 'first' }] }] }],
    },
  ])
})

test('a note made by lib/board opens in the editor and is the same when it is written again', () => {
  const doc = new Y.Doc()
  const note: RichText = [
    { type: 'paragraph', content: [{ text: 'Round window ' }, { text: 'free', bold: true }] },
    { type: 'bulletList', content: [{ type: 'listItem', content: [{ type: 'paragraph', content: [{ text: 'a' }] }] }] },
  ]
  doc.getMap('notes').set('body', fragmentOf(note))
  const fragment = doc.getMap('notes').get('body') as Y.XmlFragment
  const json = yXmlFragmentToProsemirrorJSON(fragment)
  expect(() => schema.nodeFromJSON(json).check()).not.toThrow()
  expect(readFragment(written(json))).toEqual(note)
})

test('the editor counts characters as the record does', () => {
  const json = documentOf(paragraph(text('one')), {
    type: 'bulletList',
    content: [item(paragraph(text('two')), paragraph())],
  })
  const counted = charactersOf(schema.nodeFromJSON(json))
  expect(counted).toBe(plainText(readFragment(written(json))).length)
})

test('a note is full one character after the last that the record takes', () => {
  const of = (length: number) => schema.nodeFromJSON(documentOf(paragraph(text('x'.repeat(length)))))
  expect(faultOf(of(richTextLimits.characters))).toBeUndefined()
  expect(faultOf(of(richTextLimits.characters + 1))).toEqual({ kind: 'full' })
  expect(RichText.safeParse(paragraphs('x'.repeat(richTextLimits.characters))).success).toBe(true)
  expect(RichText.safeParse(paragraphs('x'.repeat(richTextLimits.characters + 1))).success).toBe(false)
})

test('lists nest as deep as the record takes them and no deeper', () => {
  const nested = (lists: number): object =>
    lists === 0 ? paragraph(text('deep')) : { type: 'bulletList', content: [item(paragraph(), nested(lists - 1))] }
  const deepest = (richTextLimits.depth - 2) / 2
  expect(faultOf(schema.nodeFromJSON(documentOf(nested(deepest))))).toBeUndefined()
  expect(() => readFragment(written(documentOf(nested(deepest))))).not.toThrow()
  expect(faultOf(schema.nodeFromJSON(documentOf(nested(deepest + 1))))).toEqual({ kind: 'too-deep' })
  expect(() => readFragment(written(documentOf(nested(deepest + 1))))).toThrow()
})

test('what is pasted comes in as words: a paragraph a line, markup as letters', () => {
  const slice = plainSlice('<script>alert(1)</script>\r\n\n# title', schema)
  expect(slice.content.content.map((node) => [node.type.name, node.textContent])).toEqual([
    ['paragraph', '<script>alert(1)</script>'],
    ['paragraph', ''],
    ['paragraph', '# title'],
  ])
})
