import { useMessages } from '@/app/messages/for-join.ts'
import styles from './conduct.module.css'

/** What everyone who joins keeps to. */
export function Conduct() {
  const { join } = useMessages()
  return (
    <section className={styles.conduct} aria-labelledby="conduct">
      <h2 className={styles.title} id="conduct">
        {join.conductTitle}
      </h2>
      <ul className={styles.rules}>
        {join.conduct.map((rule) => (
          <li key={rule}>{rule}</li>
        ))}
      </ul>
    </section>
  )
}
