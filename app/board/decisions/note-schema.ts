import type { Extensions } from '@tiptap/core'
import { StarterKit } from '@tiptap/starter-kit'

/**
 * Exactly the nodes and marks that a note may hold (lib/board/rich-text.ts). Anything more would be refused by the
 * guard. No trailing node and no own history: opening a note must not edit it, and undo belongs to the shared text.
 */
export const noteExtensions: Extensions = [
  StarterKit.configure({
    blockquote: false,
    code: false,
    codeBlock: false,
    dropcursor: false,
    hardBreak: false,
    heading: false,
    horizontalRule: false,
    link: false,
    strike: false,
    trailingNode: false,
    underline: false,
    undoRedo: false,
  }),
]
