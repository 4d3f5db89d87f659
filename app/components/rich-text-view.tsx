import type { ReactNode } from 'react'
import type { RichText, TextBlock, TextRun } from '@/lib/board/rich-text.ts'
import styles from './rich-text-view.module.css'

/** A text that people wrote together, for reading. Builds elements from the tree; nothing in it is ever HTML. */
export function RichTextView({ text }: { readonly text: RichText }) {
  return <div className={styles.text}>{text.map(block)}</div>
}

const tags = { bulletList: 'ul', orderedList: 'ol', listItem: 'li' } as const

function block(node: TextBlock, index: number): ReactNode {
  const content = node.content.map((child, at) => ('text' in child ? run(child, at) : block(child, at)))
  if (node.type === 'paragraph')
    return (
      <p key={index} dir="auto">
        {content}
      </p>
    )
  const Tag = tags[node.type]
  return <Tag key={index}>{content}</Tag>
}

function run({ text, bold, italic }: TextRun, index: number): ReactNode {
  const slanted = italic ? <em>{text}</em> : text
  return bold ? <strong key={index}>{slanted}</strong> : <span key={index}>{slanted}</span>
}
