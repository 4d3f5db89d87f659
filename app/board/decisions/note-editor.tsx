'use client'

import { Collaboration, isChangeOrigin } from '@tiptap/extension-collaboration'
import { CollaborationCaret } from '@tiptap/extension-collaboration-caret'
import { type Editor, EditorContent, useEditor, useEditorState } from '@tiptap/react'
import { useEffect, useRef, useState } from 'react'
import type { Awareness } from 'y-protocols/awareness'
import type * as Y from 'yjs'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-decisions.ts'
import { richTextLimits } from '@/lib/board/rich-text.ts'
import { Role } from '@/lib/board/roles.ts'
import type { Presence } from '@/lib/board/wire.ts'
import styles from './note-editor.module.css'
import { type NoteFault, noteLimits } from './note-limits.ts'
import { noteExtensions } from './note-schema.ts'

interface NoteEditorProps {
  readonly fragment: Y.XmlFragment
  readonly awareness: Awareness
  /** what others see at one's caret */
  readonly user: Presence['user']
  /** accessible name */
  readonly label: string
  /** true when a person has just typed, false when they no longer do */
  readonly onTyping: (isTyping: boolean) => void
  readonly onDone: () => void
}

const typingMs = 3000

/** A note's text, edited together. Loaded only by those who may write, and only when they do. */
export default function NoteEditor({ fragment, awareness, user, label, onTyping, onDone }: NoteEditorProps) {
  const { decisions, words } = useMessages()
  const [fault, setFault] = useState<NoteFault>()
  const typed = useTypingStatus(onTyping)
  const editor = useEditor(
    {
      immediatelyRender: false,
      autofocus: 'end',
      extensions: [
        ...noteExtensions,
        noteLimits(setFault),
        Collaboration.configure({ fragment }),
        CollaborationCaret.configure({ provider: { awareness }, user, render: caretWith(words.role), selectionRender }),
      ],
      editorProps: {
        attributes: {
          role: 'textbox',
          'aria-multiline': 'true',
          'aria-label': label,
          class: styles.text ?? '',
          dir: 'auto',
        },
        handleKeyDown: (_, event) => {
          if (event.key !== 'Escape') return false
          onDone()
          return true
        },
      },
      onUpdate: ({ transaction }) => {
        if (transaction.docChanged) setFault(undefined)
        if (!isChangeOrigin(transaction)) typed()
      },
    },
    [fragment, awareness],
  )
  return (
    <div className={styles.editor}>
      {editor !== null && <Toolbar editor={editor} />}
      <EditorContent editor={editor} />
      {fault !== undefined && (
        <p className={styles.fault} role="alert">
          {sentenceOf(fault, decisions.editor)}
        </p>
      )}
      <p className={styles.hint}>{decisions.editor.hint}</p>
    </div>
  )
}

const formats = {
  bold: (editor: Editor) => editor.chain().focus().toggleBold().run(),
  italic: (editor: Editor) => editor.chain().focus().toggleItalic().run(),
  bulletList: (editor: Editor) => editor.chain().focus().toggleBulletList().run(),
  orderedList: (editor: Editor) => editor.chain().focus().toggleOrderedList().run(),
} as const
const formatNames = Object.keys(formats) as (keyof typeof formats)[]

function Toolbar({ editor }: { readonly editor: Editor }) {
  const { decisions } = useMessages()
  const active = useEditorState({
    editor,
    selector: ({ editor: now }) => formatNames.filter((format) => now.isActive(format)),
  })
  return (
    <div className={styles.toolbar} role="toolbar" aria-label={decisions.editor.toolbar}>
      {formatNames.map((format) => (
        <Button
          key={format}
          tone="quiet"
          className={styles.format ?? ''}
          data-format={format}
          aria-label={decisions.editor[format]}
          title={decisions.editor[format]}
          aria-pressed={active.includes(format)}
          onClick={() => formats[format](editor)}
        >
          {decisions.editor.signs[format]}
        </Button>
      ))}
    </div>
  )
}

type EditorWords = ReturnType<typeof useMessages>['decisions']['editor']

function sentenceOf(fault: NoteFault, words: EditorWords): string {
  switch (fault.kind) {
    case 'full':
      return words.full(richTextLimits.characters)
    case 'too-deep':
      return words.tooDeep
    case 'paste-too-long':
      return words.pasteTooLong(fault.length, fault.room)
    default:
      return fault satisfies never
  }
}

/** Another person's caret: their name and role in words, beside a stroke in their colour. */
const caretWith =
  (roleNames: ReturnType<typeof useMessages>['words']['role']) =>
  (person: Record<string, unknown>): HTMLElement => {
    const caret = document.createElement('span')
    caret.className = styles.caret ?? ''
    caret.style.setProperty('--person', String(person.color))
    const label = document.createElement('span')
    label.className = styles.caretLabel ?? ''
    const role = Role.safeParse(person.role).data
    label.textContent = [String(person.name), role === undefined ? [] : roleNames[role]].flat().join(' · ')
    caret.append(label)
    return caret
  }

const selectionRender = (user: Record<string, unknown>) => ({
  nodeName: 'span',
  class: styles.selection ?? '',
  style: `--person: ${String(user.color)}`,
})

/** Says that somebody types from their first key until they have paused; also when the editor is closed. */
function useTypingStatus(onTyping: (isTyping: boolean) => void): () => void {
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)
  useEffect(
    () => () => {
      if (timer.current === undefined) return
      clearTimeout(timer.current)
      onTyping(false)
    },
    [onTyping],
  )
  return () => {
    if (timer.current === undefined) onTyping(true)
    clearTimeout(timer.current)
    timer.current = setTimeout(() => {
      timer.current = undefined
      onTyping(false)
    }, typingMs)
  }
}
