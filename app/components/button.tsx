import type { ComponentProps } from 'react'
import styles from './button.module.css'

export interface ButtonProps extends ComponentProps<'button'> {
  /** `accent` for the one main act of a place, `plain` beside it, `quiet` inside lists, `stop` for what cannot be undone */
  readonly tone?: 'accent' | 'plain' | 'quiet' | 'stop'
}

export function Button({ tone = 'plain', type = 'button', className, ...rest }: ButtonProps) {
  return <button type={type} className={join(styles.button, className)} data-tone={tone} {...rest} />
}

const join = (...names: (string | undefined)[]): string => names.filter((name) => name !== undefined).join(' ')
