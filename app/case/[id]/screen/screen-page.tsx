'use client'

import dynamic from 'next/dynamic'
import { OpeningNotice } from '@/app/board/opening-notice.tsx'
import type { CaseId } from '@/lib/board/identity.ts'

export type ScreenGround = 'plain' | 'key'

interface ScreenPageProps {
  readonly caseId: CaseId
  readonly ground: ScreenGround
}

/** Never rendered on the server, which has Yjs of its own. */
const Screen = dynamic(() => import('./screen-case.tsx'), {
  ssr: false,
  loading: () => <OpeningNotice reason={undefined} />,
})

export const ScreenPage = (props: ScreenPageProps) => <Screen {...props} />
