import { AudiogramTable } from '@/app/audiogram/audiogram-table.tsx'
import { useMessages } from '@/app/messages/for-hearing-import.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { ImportedTest } from '@/lib/interchange/audiogram-csv.ts'
import styles from './import.module.css'

interface ImportTestsProps {
  readonly tests: readonly ImportedTest[]
  readonly superseded: readonly HearingTest[]
  readonly sentenceOf: (test: HearingTest) => string
}

/** The tests that an import would enter, with their numbers. */
export function ImportTests({ tests, superseded, sentenceOf }: ImportTestsProps) {
  const { hearingImport, words } = useMessages()
  return (
    <section className={styles.preview} aria-label={hearingImport.preview}>
      <h3 className={styles.heading}>{hearingImport.preview}</h3>
      {tests.map((test) => {
        const what = `${words.ear[test.ear]}, ${words.condition[test.condition].toLowerCase()}, ${test.performedOn}`
        const id = `import ${what}`.replaceAll(/[^\w]+/g, '-')
        return <AudiogramTable key={id} id={id} what={what} test={test} />
      })}
      {superseded.map((test) => (
        <p key={test.id} className={styles.warning}>
          {hearingImport.willSupersede(sentenceOf(test))}
        </p>
      ))}
    </section>
  )
}
