'use client'

import { useEffect, useState } from 'react'
import { type Following, ProgrammeFollower } from './programme-follower.ts'

/** A programme as it is now: order, times, and which case is on. */
export function useProgramme(id: string): Following {
  const [following, setFollowing] = useState<Following>({ state: 'asking' })
  useEffect(() => {
    setFollowing({ state: 'asking' })
    const follower = new ProgrammeFollower(id, setFollowing)
    follower.start()
    return () => follower.stop()
  }, [id])
  return following
}
