'use client'

import type { ReactNode } from 'react'
import { useMessages } from '@/app/messages/for-screens.ts'
import type { CaseHeader } from '@/lib/board/records/case-header.ts'
import type { Showing } from '@/lib/board/records/main-screen.ts'
import { AudiogramView } from './audiogram-view.tsx'
import { ContingencyView } from './contingency-view.tsx'
import { Crossfade } from './crossfade.tsx'
import type { LinkLoss } from './link-loss.ts'
import { LinkSign } from './link-sign.tsx'
import styles from './main-screen.module.css'
import { NoteView } from './note-view.tsx'
import { PictureView } from './picture-view.tsx'
import { QuestionView } from './question-view.tsx'
import { ScenarioView } from './scenario-view.tsx'
import { type ScreenContent, screenKey } from './screen-content.ts'
import { SealedForecastView } from './sealed-forecast-view.tsx'
import { Stage, wideSurface } from './stage.tsx'
import { StepsView } from './steps-view.tsx'
import { SyncMarkView } from './sync-mark-view.tsx'
import { VoteView } from './vote-view.tsx'
import { WaitingView } from './waiting-view.tsx'

export type ScreenGround = 'plain' | 'key'

interface MainScreenProps {
  readonly header: CaseHeader | undefined
  readonly showing: Showing
  readonly content: ScreenContent
  readonly loss: LinkLoss
  readonly ground: ScreenGround
  /** the forecast as another part of the board draws it */
  readonly forecast: ReactNode
  /** the options side by side, likewise */
  readonly options: ReactNode
}

/** The main screen of the room: one thing at a time, whose case it is, and nothing else. */
export function MainScreen({ header, showing, content, loss, ground, forecast, options }: MainScreenProps) {
  const empty = ground === 'key' && content.kind === 'nothing'
  return (
    <Stage surface={wideSurface} ground={ground}>
      <div className={styles.plate} data-ground={ground} data-empty={empty}>
        <div className={styles.content}>
          <Crossfade contentKey={screenKey(showing)}>
            {!empty && <Content header={header} content={content} forecast={forecast} options={options} />}
          </Crossfade>
        </div>
        <footer className={styles.foot}>
          {!empty && <CaseLine header={isWaiting(content) ? undefined : header} />}
          <LinkSign loss={loss} />
        </footer>
      </div>
    </Stage>
  )
}

/** The waiting card names the case itself. */
const isWaiting = ({ kind }: ScreenContent): boolean => kind === 'nothing' || kind === 'gone'

type ContentProps = Pick<MainScreenProps, 'header' | 'content' | 'forecast' | 'options'>

function Content({ header, content, forecast, options }: ContentProps) {
  const { screen } = useMessages().screens
  switch (content.kind) {
    case 'nothing':
      return <WaitingView header={header} course={content.course} />
    case 'gone':
      return <WaitingView header={header} remark={screen.gone} />
    case 'audiogram':
      return <AudiogramView ears={content.ears} />
    case 'question':
      return <QuestionView thread={content.thread} anchor={content.anchor} />
    case 'note':
      return <NoteView note={content.note} />
    case 'contingency':
      return <ContingencyView contingency={content.contingency} />
    case 'forecast':
      return forecast
    case 'options':
      return options
    case 'scenario':
      return <ScenarioView scenario={content.scenario} superseded={content.superseded} />
    case 'sealed-forecast':
      return <SealedForecastView forecast={content.forecast} scenario={content.scenario} followed={content.followed} />
    case 'steps':
      return <StepsView course={content.course} />
    case 'sync-mark':
      return <SyncMarkView />
    case 'picture':
      return <PictureView picture={content.picture} />
    case 'vote':
      return <VoteView vote={content.vote} />
    default:
      return content satisfies never
  }
}

function CaseLine({ header }: { header: CaseHeader | undefined }) {
  const { words, shell } = useMessages()
  return (
    <p className={styles.case}>
      {header !== undefined && (
        <>
          <span className={styles.pseudonym}>{header.pseudonym}</span>
          <span>{words.ear[header.ear]}</span>
          <span>{words.phase[header.phase]}</span>
        </>
      )}
      <span className={styles.product}>{shell.productName}</span>
    </p>
  )
}
