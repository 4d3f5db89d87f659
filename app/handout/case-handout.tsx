'use client'

import { useMemo } from 'react'
import { useSingle, useTable } from '@/app/board/board-context.tsx'
import { useMessages } from '@/app/messages/for-screens.ts'
import { useLinkLoss } from '@/app/screen/link-loss.ts'
import styles from './case-handout.module.css'
import { Handout, type HandoutContent } from './handout.tsx'

interface CaseHandoutProps {
  /** ISO 8601 */
  readonly generatedAt: string
  /** where a code from this paper can be typed */
  readonly checkAddress: string
}

/** The sheet of one case over its documents. */
export function CaseHandout(props: CaseHandoutProps) {
  return (
    <>
      <LinkWarning />
      <Handout content={useHandoutContent()} {...props} />
    </>
  )
}

/** Printed too: a sheet that may be old says so. */
function LinkWarning() {
  const { handout } = useMessages().screens
  const loss = useLinkLoss()
  if (loss.state === 'live') return null
  return (
    <p className={styles.warning} role="alert">
      <span aria-hidden="true">✕ </span>
      {loss.state === 'linking' ? handout.linking : handout.linkLost}
    </p>
  )
}

function useHandoutContent(): HandoutContent {
  const header = useSingle('header')
  const plan = useSingle('plan')
  const tests = useTable('tests')
  const speechTests = useTable('speechTests')
  const annotations = useTable('annotations')
  const contingencies = useTable('contingencies')
  return useMemo(
    () => ({ header, plan, tests, speechTests, annotations, contingencies }),
    [header, plan, tests, speechTests, annotations, contingencies],
  )
}
