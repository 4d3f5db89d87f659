import type { ReactNode } from 'react'
import { Button, type ButtonProps } from './button.tsx'
import styles from './icon-button.module.css'

interface IconButtonProps extends Omit<ButtonProps, 'children' | 'aria-label'> {
  /** the button's name, also shown when the pointer rests on it */
  readonly label: string
  readonly children: ReactNode
}

export function IconButton({ label, tone = 'quiet', children, ...rest }: IconButtonProps) {
  return (
    <Button tone={tone} className={styles.iconButton ?? ''} aria-label={label} title={label} {...rest}>
      {children}
    </Button>
  )
}
