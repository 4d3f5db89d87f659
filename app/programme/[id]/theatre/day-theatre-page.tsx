'use client'

import dynamic from 'next/dynamic'
import { OpeningNotice } from '@/app/board/opening-notice.tsx'

/** Never rendered on the server, which has Yjs of its own. */
const Theatre = dynamic(() => import('@/app/meeting/day-theatre.tsx'), {
  ssr: false,
  loading: () => <OpeningNotice reason={undefined} />,
})

export const DayTheatrePage = (props: { programmeId: string }) => <Theatre {...props} />
