'use client'

import dynamic from 'next/dynamic'
import { OpeningNotice } from '@/app/board/opening-notice.tsx'
import type { ScreenGround } from '@/app/screen/main-screen.tsx'

/** Never rendered on the server, which has Yjs of its own. */
const Screen = dynamic(() => import('@/app/meeting/day-screen.tsx'), {
  ssr: false,
  loading: () => <OpeningNotice reason={undefined} />,
})

export const DayScreenPage = (props: { programmeId: string; ground: ScreenGround }) => <Screen {...props} />
