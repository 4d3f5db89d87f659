import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-hearing-import.ts'
import type { CsvReading } from '@/lib/interchange/audiogram-csv.ts'
import styles from './import.module.css'

/** Faults in a list longer than this are counted instead; the first ones usually explain the rest. */
const faultsListed = 50

/** What is wrong with a table: the whole file, each cell by row and column, and what deserves a look. */
export function ImportFaults({ reading, earsLookSwapped }: { reading: CsvReading; earsLookSwapped: boolean }) {
  const { hearingImport } = useMessages()
  const words = hearingImport
  const { fileFaults, faults, warnings, entries, rows } = reading
  const faulty = fileFaults.length + faults.length
  return (
    <section className={styles.faults} aria-live="polite">
      <p className={styles.summary}>
        <StateSign tone={faulty > 0 ? 'stop' : 'good'}>{words.faults(faulty)}</StateSign>{' '}
        {words.found(entries.length, rows)}
      </p>
      {fileFaults.map((fault) => (
        <p key={`${fault.code}${'column' in fault ? fault.column : ''}`} className={styles.fault}>
          {words.fileFault(fault)}
        </p>
      ))}
      {faults.length > 0 && <FaultTable faults={faults.slice(0, faultsListed)} />}
      {faults.length > faultsListed && <p>{words.moreFaults(faults.length - faultsListed)}</p>}
      <ul>
        {earsLookSwapped && <li className={styles.warning}>{words.swapped}</li>}
        {warnings.map((warning) => (
          <li key={`${warning.code}${'column' in warning ? warning.column : ''}`} className={styles.warning}>
            {words.warning(warning)}
          </li>
        ))}
      </ul>
    </section>
  )
}

function FaultTable({ faults }: { faults: CsvReading['faults'] }) {
  const { hearingImport } = useMessages()
  const words = hearingImport
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          <th scope="col">{words.row}</th>
          <th scope="col">{words.column}</th>
          <th scope="col">{words.problem}</th>
        </tr>
      </thead>
      <tbody>
        {faults.map(({ row, column, fault }) => (
          <tr key={`${row} ${column} ${fault.code}`}>
            <td>{row}</td>
            <td>{column === '' ? words.wholeRow : column.slice(0, 40)}</td>
            <td>{words.cellFault(fault)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
