'use client'

import { useMemo } from 'react'
import { pageLanguage } from '@/app/messages/page-language.ts'
import { refusalsPart } from '@/app/messages/parts/refusals.ts'
import { useMay } from '../board-context.tsx'
import {
  AddPictureDialog,
  AnchorField,
  CaseDetails,
  CaseMenu,
  DraftsPanel,
  EntryBar,
  ExchangeDialog,
  FindingsList,
  HearingDialogs,
  ImportDialog,
  MeasuresPanel,
  OwnQuestionNotices,
  OwnQuestions,
  PeoplePanel,
  PictureViewer,
  PostGuardDialog,
  QuestionTask,
  ShortcutHelp,
  SpeechForm,
  SpeechTests,
  TestDesk,
  ThreadBody,
  WithdrawDialog,
} from '../later-parts.ts'
import { loadUnnamedApi } from '../unnamed-authors.ts'
import { type Load, LoadedAhead } from './loaded-ahead.tsx'

const forEverybody: readonly Load[] = [
  () => import('../hearing/hearing-pane.tsx'),
  () => import('../plan/plan-pane.tsx'),
  () => import('../plan/why.tsx'),
  () => import('../plan/frozen/frozen-section.tsx'),
  () => import('../plan/records-section.tsx'),
  () => import('../plan/learning/learning-switch.tsx'),
  () => import('../plan/sealed/sealed-list.tsx'),
  () => import('../plan/fit/fit-list.tsx'),
  () => import('../plan/profiles/profile-list.tsx'),
  () => import('../steps/steps-pane.tsx'),
  () => import('../decisions/decisions-pane.tsx'),
  () => import('../floor/floor-pane.tsx'),
  () => import('../measures/forecast-overlay.ts'),
  () => import('../rewind/rewound-board.tsx'),
  () => import('../votes/vote-bar.tsx'),
  () => import('../votes/votes-section.tsx'),
  AnchorField.load,
  CaseMenu.load,
  DraftsPanel.load,
  OwnQuestionNotices.load,
  PeoplePanel.load,
  PictureViewer.load,
  ShortcutHelp.load,
  () => refusalsPart.load(pageLanguage()),
  QuestionTask.load,
  SpeechTests.load,
  FindingsList.load,
  MeasuresPanel.load,
  ThreadBody.load,
]
const forThoseWhoSpeak: readonly Load[] = [
  () => import('@/app/read-server-clock.ts').then(({ readServerClock }) => readServerClock()),
  () => import('../delay/delay-dialog.tsx'),
  loadUnnamedApi,
  PostGuardDialog.load,
  OwnQuestions.load,
]
const forThoseWhoEnter: readonly Load[] = [
  AddPictureDialog.load,
  () => import('../floor/asked-while.tsx'),
  () => import('../decisions/note-editor.tsx'),
  () => import('../plan/frozen/freeze-form.tsx'),
  () => import('../plan/profiles/profile-import.tsx'),
  CaseDetails.load,
  EntryBar.load,
  ExchangeDialog.load,
  HearingDialogs.load,
  ImportDialog.load,
  SpeechForm.load,
  TestDesk.load,
  WithdrawDialog.load,
]

/** Long enough that it does not compete with what the first view needs; who enters things waits for nothing. */
const quietMs = 2000

/** Loads the parts of the board that nobody has opened yet. */
export function LoadAhead() {
  const may = useMay()
  const maySpeak = may.mayCreate('questions')
  const mayEnter = may.mayCreate('tests')
  const loads = useMemo(
    () => [...forEverybody, ...(maySpeak ? forThoseWhoSpeak : []), ...(mayEnter ? forThoseWhoEnter : [])],
    [maySpeak, mayEnter],
  )
  return <LoadedAhead loads={loads} afterMs={mayEnter ? 0 : quietMs} />
}
