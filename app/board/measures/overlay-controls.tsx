import { useMessages } from '@/app/messages/use-messages.ts'
import styles from './overlay-controls.module.css'
import { type Overlay, type OverlayName, overlayNames } from './overlays.ts'

interface OverlayControlsProps {
  readonly overlays: Readonly<Record<OverlayName, Overlay | undefined>>
  readonly chosen: ReadonlySet<OverlayName>
  readonly onToggle: (name: OverlayName) => void
}

/** What is laid over the chart: switches, then a legend of each, or why it cannot be shown. */
export function OverlayControls({ overlays, chosen, onToggle }: OverlayControlsProps) {
  const { overlays: words } = useMessages().measures
  return (
    <div className={styles.controls}>
      <fieldset className={styles.switches}>
        <legend className={styles.legend}>{words.legend}</legend>
        {overlayNames.map((name) => (
          <label key={name} className={styles.switch}>
            <input type="checkbox" checked={chosen.has(name)} onChange={() => onToggle(name)} />
            {words[name]}
          </label>
        ))}
      </fieldset>
      <ul className={styles.legends} role="status">
        {overlayNames
          .filter((name) => chosen.has(name))
          .map((name) => (
            <OverlayLegends key={name} overlay={overlays[name]} />
          ))}
      </ul>
    </div>
  )
}

function OverlayLegends({ overlay }: { overlay: Overlay | undefined }) {
  if (overlay === undefined) return null
  if (!overlay.ok) return <li className={styles.refused}>{overlay.reason}</li>
  return overlay.legends.map(({ kind, ear, text }) => (
    <li key={`${kind} ${ear}`} className={styles.line}>
      <span className={styles.swatch} data-kind={kind} data-ear={ear} aria-hidden="true" />
      {text}
    </li>
  ))
}
