'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import { useWords } from '@/app/screen/use-words.ts'
import { openContingencies } from '@/app/theatre/theatre-content.ts'
import type { Contingency } from '@/lib/board/records/contingency.ts'
import type { Plan } from '@/lib/board/records/plan.ts'
import styles from './handout-tables.module.css'

const bones = ['malleus', 'incus', 'stapes'] as const

export function PlanTable({ plan }: { plan: Plan }) {
  const { screens, words } = useMessages()
  const { planField, undecided, ossicle, ossicleState } = screens.handout
  const rows = [
    [planField.ear, words.ear[plan.ear]],
    [planField.deviceClass, plan.deviceClass === undefined ? undecided : words.deviceClass[plan.deviceClass]],
    [planField.couplingSite, plan.couplingSite === undefined ? undecided : words.couplingSite[plan.couplingSite]],
    [planField.ossicles, bones.map((bone) => `${ossicle[bone]} ${ossicleState[plan[bone]]}`).join(', ')],
    [planField.approach, plan.approach],
    [planField.aim, plan.aim],
  ].filter(([, value]) => value !== '')
  return (
    <table className={styles.table}>
      <tbody>
        {rows.map(([name, value]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{value}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

export function ContingencyTable({ contingencies }: { contingencies: readonly Contingency[] }) {
  const { screens, words } = useMessages()
  const { trigger } = useWords()
  const { contingencyColumns, noContingencies } = screens.handout
  const open = openContingencies(contingencies)
  if (open.length === 0) return <p>{noContingencies}</p>
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          <th scope="col">{contingencyColumns.trigger}</th>
          <th scope="col">{contingencyColumns.plan}</th>
          <th scope="col">{contingencyColumns.state}</th>
        </tr>
      </thead>
      <tbody>
        {open.map((contingency) => (
          <tr key={contingency.id}>
            <td>{trigger(contingency.trigger)}</td>
            <td>{contingency.plan}</td>
            <td className={styles.number}>{words.contingencyState[contingency.state]}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
