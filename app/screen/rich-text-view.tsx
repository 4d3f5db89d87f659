import type { RichText, TextBlock, TextRun } from '@/lib/board/rich-text.ts'
import styles from './rich-text-view.module.css'

/** A note's text to be read, not edited. Empty paragraphs are left out. */
export function RichTextView({ text }: { text: RichText }) {
  return <div className={styles.text}>{text.map(drawn)}</div>
}

const isRun = (child: TextBlock | TextRun): child is TextRun => 'text' in child

// Blocks and runs have no identity of their own: their place is their key.
function drawn(child: TextBlock | TextRun, place: number) {
  if (isRun(child)) return <Run key={place} run={child} />
  if (child.content.length === 0) return null
  switch (child.type) {
    case 'paragraph':
      return <p key={place}>{child.content.map(drawn)}</p>
    case 'bulletList':
      return <ul key={place}>{child.content.map(drawn)}</ul>
    case 'orderedList':
      return <ol key={place}>{child.content.map(drawn)}</ol>
    case 'listItem':
      return <li key={place}>{child.content.map(drawn)}</li>
    default:
      return child.type satisfies never
  }
}

function Run({ run }: { run: TextRun }) {
  const words = run.italic ? <em>{run.text}</em> : run.text
  return run.bold ? <strong>{words}</strong> : words
}
