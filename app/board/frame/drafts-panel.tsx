'use client'

import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { dayAndClockOf } from '@/app/messages/moments.ts'
import { type Draft, useBoardStatus, useMessages } from '../board-context.tsx'
import { draftLines } from '../connection/drafts.ts'
import styles from './drafts-panel.module.css'

interface PanelProps {
  readonly open: boolean
  readonly onClose: () => void
}

/** What this person wrote and the server refused, until they deal with it. */
export function DraftsPanel({ open, onClose }: PanelProps) {
  const { board } = useMessages()
  const { drafts } = useBoardStatus()
  return (
    <Dialog open={open} onClose={onClose} title={board.drafts} wide>
      {drafts.length === 0 ? (
        <EmptyHint title={board.noDrafts}>{board.noDraftsHint}</EmptyHint>
      ) : (
        <ul className={styles.drafts}>
          {drafts.toReversed().map((draft) => (
            <DraftEntry key={draft.id} draft={draft} />
          ))}
        </ul>
      )}
    </Dialog>
  )
}

function DraftEntry({ draft }: { draft: Draft }) {
  const { board, words } = useMessages()
  const { discardDraft, retryDraft } = useBoardStatus()
  const say = useSay()
  const lines = draftLines(draft)
  const copy = () => {
    const text = lines.map(({ text }) => text).join('\n')
    navigator.clipboard.writeText(text).then(
      () => say(board.copied),
      () => say(board.notCopied),
    )
  }
  return (
    <li className={styles.draft}>
      <h3 className={styles.title}>
        {words.kind[draft.kind]} <time dateTime={draft.at}>{dayAndClockOf(draft.at)}</time>
      </h3>
      <p className={styles.reason}>{draft.reason}</p>
      {draft.extent === 'removal' ? (
        <p>{board.draftOfRemoval}</p>
      ) : (
        <dl className={styles.fields}>
          {lines.map(({ field, text }) => (
            <div key={field}>
              <dt>{field}</dt>
              <dd>{text}</dd>
            </div>
          ))}
        </dl>
      )}
      <div className={styles.acts}>
        <Button
          onClick={() => {
            if (!retryDraft(draft.id)) say(board.cannotRetry)
          }}
          disabled={draft.extent === 'removal'}
        >
          {board.retry}
        </Button>
        <Button onClick={copy} disabled={lines.length === 0}>
          {board.copy}
        </Button>
        <Button tone="stop" onClick={() => discardDraft(draft.id)}>
          {board.discard}
        </Button>
      </div>
    </li>
  )
}
