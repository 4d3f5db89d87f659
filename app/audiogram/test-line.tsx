import { StateSign } from '@/app/components/state-sign.tsx'
import type { TestInWords } from '@/app/messages/en/audiogram.ts'
import { useMessages } from '@/app/messages/use-messages.ts'
import styles from './test-line.module.css'

interface TestLineProps {
  readonly test: TestInWords
  readonly code: string
}

/** Which test this is, how far it counts, and its record code: stands beside every audiogram, on screen and on paper. */
export function TestLine({ test, code }: TestLineProps) {
  const { audiogram } = useMessages()
  return (
    <span className={styles.line} data-state={test.state}>
      <StateSign tone={test.state === 'entered-in-error' ? 'error' : test.state}>
        {audiogram.testStates[test.state]}
      </StateSign>{' '}
      <span className={styles.details}>{audiogram.testDetails(test)}</span>{' '}
      <span className={styles.code}>
        {audiogram.code} <code>{code}</code>
      </span>
    </span>
  )
}
