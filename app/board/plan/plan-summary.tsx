import { useMessages } from '@/app/messages/for-forecast.ts'
import { changeInWords } from './change-in-words.ts'
import type { PlanFields } from './plan-form.tsx'
import styles from './plan-summary.module.css'
import { ossiclesInWords } from './plan-words.ts'

/** The plan for those who may not edit it. */
export function PlanSummary({ plan }: { plan: PlanFields }) {
  const { plan: labels, whatIf, words } = useMessages()
  const found = (plan.earChanges ?? []).map((change) => changeInWords(change, whatIf.finding))
  const rows = [
    [labels.ear, words.ear[plan.ear]],
    [labels.deviceClass, plan.deviceClass === undefined ? labels.notDecided : words.deviceClass[plan.deviceClass]],
    [labels.couplingSite, plan.couplingSite === undefined ? labels.notDecided : words.couplingSite[plan.couplingSite]],
    [labels.ossicles, ossiclesInWords(plan, labels)],
    [labels.earCanal, plan.earCanal === undefined ? labels.earCanalUnknown : labels.earCanalState[plan.earCanal]],
    ...(found.length === 0 ? [] : [[whatIf.found.title, found.join('; ')] as const]),
    [labels.approach, plan.approach || labels.nothingWritten],
    [labels.aim, plan.aim || labels.nothingWritten],
  ] as const
  return (
    <dl className={styles.summary}>
      {rows.map(([label, text]) => (
        <div key={label} className={styles.row}>
          <dt className={styles.label}>{label}</dt>
          <dd className={styles.text}>{text}</dd>
        </div>
      ))}
    </dl>
  )
}
