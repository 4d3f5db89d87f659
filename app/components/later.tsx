'use client'

import { type ComponentType, lazy, Suspense, useState } from 'react'
import { fetchSentences } from '@/app/messages/together.ts'

/** A part of a page whose code comes later than the page. */
export interface Later<Props> {
  (props: Props): React.ReactNode
  /** fetches the code ahead of the need: from then on the part stands at once, and no key typed into it is lost */
  load(): Promise<unknown>
}

/** @param load imports the component; called once, when the part is first shown or fetched ahead */
export function later<Props extends object>(load: () => Promise<ComponentType<Props>>): Later<Props> {
  let loaded: ComponentType<Props> | undefined
  const fetchPart = async () => {
    if (loaded === undefined) {
      const content = await load()
      await fetchSentences()
      loaded = content
    }
    return { default: loaded }
  }
  const Fetched = lazy(fetchPart)
  // biome-ignore lint/correctness/noComponentHookFactories: called once a part, at module level, as React's own `lazy` is.
  function Part(props: Props) {
    // Chosen once a mount: another type of component would lose what was typed in this one.
    const [Content] = useState<ComponentType<Props> | typeof Fetched>(() => loaded ?? Fetched)
    return (
      <Suspense>
        <Content {...props} />
      </Suspense>
    )
  }
  return Object.assign(Part, { load: fetchPart })
}

/** A dialog whose code comes later than the page: nothing until it is first opened, and from then on as any dialog. */
export function laterDialog<Props extends { readonly open: boolean }>(
  load: () => Promise<ComponentType<Props>>,
): Later<Props> {
  const Dialog = later(load)
  // biome-ignore lint/correctness/noComponentHookFactories: called once a dialog, at module level, as React's own `lazy` is.
  function Opened(props: Props) {
    const [isWanted, setWanted] = useState(props.open)
    if (props.open && !isWanted) setWanted(true)
    return isWanted && <Dialog {...props} />
  }
  return Object.assign(Opened, { load: Dialog.load })
}
