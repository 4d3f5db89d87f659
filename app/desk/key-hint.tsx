import styles from './key-hint.module.css'

/** The key that does the same as the button beside it. */
export const KeyHint = ({ children }: { readonly children: string }) => (
  <span className={styles.key} aria-hidden="true">
    {children}
  </span>
)
