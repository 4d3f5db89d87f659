import { Extension } from '@tiptap/core'
import { isChangeOrigin } from '@tiptap/extension-collaboration'
import { Fragment, type Node, type Schema, Slice } from '@tiptap/pm/model'
import { Plugin, type Transaction } from '@tiptap/pm/state'
import { richTextLimits } from '@/lib/board/rich-text.ts'

export type NoteFault =
  | { readonly kind: 'full' }
  | { readonly kind: 'too-deep' }
  | { readonly kind: 'paste-too-long'; readonly length: number; readonly room: number }

/** Characters as lib/board/rich-text.ts counts them: a line break between any two paragraphs. */
export function charactersOf(doc: Node): number {
  let characters = -1
  doc.descendants((node) => {
    if (node.isTextblock) characters += node.content.size + 1
  })
  return Math.max(characters, 0)
}

/** Levels of blocks, the outermost being 1. */
function depthOf(node: Node): number {
  let deepest = 0
  node.forEach((child) => {
    if (!child.isText) deepest = Math.max(deepest, 1 + depthOf(child))
  })
  return deepest
}

/** What the guard would have against this text, so that it is said before anything is sent. */
export function faultOf(doc: Node): NoteFault | undefined {
  if (charactersOf(doc) > richTextLimits.characters) return { kind: 'full' }
  return depthOf(doc) > richTextLimits.depth ? { kind: 'too-deep' } : undefined
}

/** Words from outside as paragraphs: no formatting, links or pictures come along. */
export const plainSlice = (words: string, schema: Schema): Slice =>
  new Slice(
    Fragment.from(
      words
        .split(/\r\n?|\n/)
        .map((line) => schema.node('paragraph', null, line === '' ? undefined : schema.text(line))),
    ),
    1,
    1,
  )

/** Own edits that would break a limit are not taken; those of others have passed the guard already. */
const isRefused = (transaction: Transaction): NoteFault | undefined =>
  transaction.docChanged && !isChangeOrigin(transaction) ? faultOf(transaction.doc) : undefined

/** Keeps the note within what the record holds, and takes only the words of what is pasted. */
export const noteLimits = (onFault: (fault: NoteFault) => void): Extension =>
  Extension.create({
    name: 'noteLimits',
    addProseMirrorPlugins: () => [
      new Plugin({
        filterTransaction: (transaction) => {
          const fault = isRefused(transaction)
          if (fault !== undefined) onFault(fault)
          return fault === undefined
        },
        props: {
          handlePaste: (view, event) => {
            const words = event.clipboardData?.getData('text/plain') ?? ''
            const paste = view.state.tr.replaceSelection(plainSlice(words, view.state.schema))
            if (charactersOf(paste.doc) > richTextLimits.characters) {
              const room = richTextLimits.characters - charactersOf(view.state.doc)
              onFault({ kind: 'paste-too-long', length: words.length, room })
            } else view.dispatch(paste.scrollIntoView())
            return true
          },
        },
      }),
    ],
  })
