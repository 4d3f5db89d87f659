'use client'

import dynamic from 'next/dynamic'
import { OpeningNotice } from '@/app/board/opening-notice.tsx'

/** Never rendered on the server, which has Yjs of its own. */
const Code = dynamic(() => import('@/app/meeting/day-code.tsx'), {
  ssr: false,
  loading: () => <OpeningNotice reason={undefined} />,
})

export const DayCodePage = (props: { programmeId: string }) => <Code {...props} />
