'use client'

import { useState } from 'react'
import { markInAddress, putMarkInAddress } from '@/app/address-mark.ts'
import { useBoard, useSingle } from '@/app/board/board-context.tsx'
import { type Load, LoadedAhead } from '@/app/board/frame/loaded-ahead.tsx'
import { Notices } from '@/app/board/frame/notices.tsx'
import { DraftsPanel, PostGuardDialog } from '@/app/board/later-parts.ts'
import { EmptyHint } from '@/app/components/empty-hint.tsx'
import { KeptTextScope } from '@/app/components/kept-text.ts'
import { useMessages } from '@/app/messages/for-follow-up.ts'
import { pageLanguage } from '@/app/messages/page-language.ts'
import { refusalsPart } from '@/app/messages/parts/refusals.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import { isHeld, type Visit } from '@/lib/board/records/visit.ts'
import { CourseTable } from './course-table.tsx'
import { FollowUpHead } from './follow-up-head.tsx'
import styles from './follow-up-pane.module.css'
import { contingenciesId, courseId, FollowUpSummary } from './follow-up-summary.tsx'
import { ResultSection } from './result-section.tsx'
import { type FollowUp, useFollowUp } from './use-follow-up.ts'
import { VisitDetails } from './visit-details.tsx'
import { VisitItems } from './visit-items.tsx'
import { VisitList } from './visit-list.tsx'
import { VisitTests } from './visit-tests.tsx'
import { WatchedContingencies } from './watched-contingencies.tsx'

/** Of the visit that is looked at. */
const mark = 'visit'

/** What stands on no first view of this page, and has to be there when the link is lost. */
const shownLater: readonly Load[] = [PostGuardDialog.load, DraftsPanel.load, () => refusalsPart.load(pageLanguage())]

/** The follow-up of one case: its visits, the chosen one in full, and what all of them say. */
export function FollowUpPane() {
  const { caseId, label } = useBoard()
  const { followUp, shell, words } = useMessages()
  const pseudonym = useSingle('header')?.pseudonym ?? label
  const facts = useFollowUp()
  const [chosen, setChosen] = useState<RecordId | undefined>(() => markInAddress(mark))
  const choose = (visit: RecordId) => {
    setChosen(visit)
    putMarkInAddress(mark, visit)
  }
  const visit = facts.visits.find(({ id }) => id === chosen) ?? firstShown(facts.visits)
  return (
    <KeptTextScope value={caseId}>
      <title>{`${words.labelled(pseudonym, followUp.pageTitle)} - ${shell.productName}`}</title>
      <FollowUpHead facts={facts} />
      <Notices />
      <LoadedAhead loads={shownLater} afterMs={0} />
      <main className={styles.page}>
        <div className={styles.side}>
          <VisitList facts={facts} chosen={visit?.id} onChoose={choose} />
        </div>
        <div className={styles.main}>
          <FollowUpSummary facts={facts} />
          {visit === undefined ? (
            <EmptyHint title={followUp.visits.none}>{followUp.visits.noneHint}</EmptyHint>
          ) : (
            <VisitInFull key={visit.id} facts={facts} visit={visit} />
          )}
          <div id={contingenciesId}>
            <WatchedContingencies facts={facts} />
          </div>
          <div id={courseId}>
            <CourseTable facts={facts} />
          </div>
        </div>
      </main>
    </KeptTextScope>
  )
}

function VisitInFull({ facts, visit }: { readonly facts: FollowUp; readonly visit: Visit }) {
  return (
    <>
      <VisitDetails facts={facts} visit={visit} />
      {isHeld(visit) && <VisitTests facts={facts} visit={visit} />}
      {isHeld(visit) && <ResultSection facts={facts} visit={visit} />}
      <VisitItems facts={facts} visit={visit} />
    </>
  )
}

/** The last visit that was held, or else the next one. */
const firstShown = (visits: readonly Visit[]): Visit | undefined =>
  visits.findLast(isHeld) ?? visits.find(({ state }) => state === 'planned') ?? visits[0]
