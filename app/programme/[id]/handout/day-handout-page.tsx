'use client'

import dynamic from 'next/dynamic'
import { OpeningNotice } from '@/app/board/opening-notice.tsx'

/** Never rendered on the server, which has Yjs of its own. */
const Handout = dynamic(() => import('@/app/meeting/day-handout.tsx'), {
  ssr: false,
  loading: () => <OpeningNotice reason={undefined} />,
})

export const DayHandoutPage = (props: { programmeId: string }) => <Handout {...props} />
