import type { ReactNode } from 'react'
import styles from './icons.module.css'

/** A drawing that stands beside words or under a label of its own; never the only name of a thing. */
function Icon({ children }: { children: ReactNode }) {
  return (
    <svg className={styles.icon} viewBox="0 0 20 20" aria-hidden="true" focusable="false">
      {children}
    </svg>
  )
}

export const CloseIcon = () => (
  <Icon>
    <path d="M4.5 4.5l11 11M15.5 4.5l-11 11" />
  </Icon>
)
export const ThemeIcon = () => (
  <Icon>
    <circle cx="10" cy="10" r="6.5" />
    <path d="M10 3.5a6.5 6.5 0 0 1 0 13z" fill="currentColor" stroke="none" />
  </Icon>
)
export const ScreenIcon = () => (
  <Icon>
    <path d="M2.5 4h15v10h-15zM7 17h6M10 14v3" />
  </Icon>
)
export const DraftIcon = () => (
  <Icon>
    <path d="M5 2.5h7l3 3v12H5zM8 9h4M8 12.5h4" />
  </Icon>
)
export const UpIcon = () => (
  <Icon>
    <path d="M4.5 12.5L10 7l5.5 5.5" />
  </Icon>
)
export const DownIcon = () => (
  <Icon>
    <path d="M4.5 7.5L10 13l5.5-5.5" />
  </Icon>
)
export const PlaceIcon = () => (
  <Icon>
    <circle cx="10" cy="10" r="5" />
    <path d="M10 1.5v5M10 13.5v5M1.5 10h5M13.5 10h5" />
  </Icon>
)
export const NoteIcon = () => (
  <Icon>
    <path d="M3.5 3h13v10.5L13 17H3.5zM6.5 7h7M6.5 10.5h4.5" />
  </Icon>
)
export const StepIcon = () => (
  <Icon>
    <path d="M3 16.5h4.5v-4.5H12V7.5h4.5V3" />
  </Icon>
)
export const OptionIcon = () => (
  <Icon>
    <path d="M3 5h14M3 10h14M3 15h14M6.5 3v4M13 8v4M9 13v4" />
  </Icon>
)
export const ScenarioIcon = () => (
  <Icon>
    <path d="M3 10h5l4.5-5H17M8 10l4.5 5H17M14.5 2.5L17 5l-2.5 2.5M14.5 12.5L17 15l-2.5 2.5" />
  </Icon>
)
export const PeopleIcon = () => (
  <Icon>
    <circle cx="7.5" cy="7" r="3" />
    <path d="M2 16.5c0-3 2.2-5 5.5-5s5.5 2 5.5 5M13 4.2a3 3 0 0 1 0 5.6M15 12c1.9.8 3 2.4 3 4.5" />
  </Icon>
)
export const RewindIcon = () => (
  <Icon>
    <path d="M3 4v5h5M3.6 9a7 7 0 1 1-.4 3.4M10 6v4.5l3 1.8" />
  </Icon>
)
export const KeyboardIcon = () => (
  <Icon>
    <path d="M2 5h16v10H2zM5 8.2h.1M8.3 8.2h.1M11.7 8.2h.1M15 8.2h.1M6.5 11.8h7" />
  </Icon>
)
export const MenuIcon = () => (
  <Icon>
    <path d="M3 5.5h14M3 10h14M3 14.5h14" />
  </Icon>
)
