'use client'

import { Dialog } from '@/app/components/dialog.tsx'
import { useMessages } from '../board-context.tsx'
import { useShortcutRegistry } from '../shortcuts.tsx'
import styles from './shortcut-help.module.css'

interface PanelProps {
  readonly open: boolean
  readonly onClose: () => void
}

/** The keys of all panes that are on the page now. */
export function ShortcutHelp({ open, onClose }: PanelProps) {
  const { board } = useMessages()
  const { groups } = useShortcutRegistry()
  return (
    <Dialog open={open} onClose={onClose} title={board.showKeys} wide>
      <p>{board.keysHint}</p>
      <div className={styles.groups}>
        {[...groups].map(([group, shortcuts]) => (
          <section key={group}>
            <h3 className={styles.group}>{group}</h3>
            <dl>
              {shortcuts.map(({ key, does }) => (
                <div key={key} className={styles.shortcut}>
                  <dt>
                    <kbd className={styles.key}>{key}</kbd>
                  </dt>
                  <dd>{does}</dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
      </div>
    </Dialog>
  )
}
