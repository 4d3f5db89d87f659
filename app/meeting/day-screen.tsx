'use client'

import { LinkSign } from '@/app/screen/link-sign.tsx'
import type { ScreenGround } from '@/app/screen/main-screen.tsx'
import { ScreenPane } from '@/app/screen/screen-pane.tsx'
import { Stage, wideSurface } from '@/app/screen/stage.tsx'
import { FollowedCase } from './followed-case.tsx'
import type { FollowLink } from './programme-follower.ts'

interface DayScreenProps {
  readonly programmeId: string
  readonly ground: ScreenGround
}

/** The main screen of the whole day. On a key ground nothing lies over the picture between cases. */
export default function DayScreen({ programmeId, ground }: DayScreenProps) {
  return (
    <FollowedCase programmeId={programmeId} between={ground === 'key' ? onKeyGround : undefined}>
      <ScreenPane ground={ground} />
    </FollowedCase>
  )
}

const onKeyGround = ({ link }: { readonly link: FollowLink }) => (
  <Stage surface={wideSurface} ground="key">
    <LinkSign loss={link} />
  </Stage>
)
