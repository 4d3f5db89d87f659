import type { CouplingSite } from '../devices/classes.ts'
import type { ForecastPlan, OssicleState } from './inputs.ts'

/** In what the planned ear differs from the ears of the evidence, without a number for it yet. */
export type Concern = 'chain-not-mobile' | 'stapes-not-mobile' | 'window-loss-is-a-bound'

const hampered: readonly OssicleState[] = ['stiff', 'fixed', 'eroded']

/**
 * What the plan says of the ossicles and the evidence does not hold for: sites on the incus were measured with a mobile
 * chain, and every site of the middle ear with a mobile stapes. Common practice, no source.
 */
export function concernsOf({ malleus, incus, stapes }: ForecastPlan, site: CouplingSite): readonly Concern[] {
  if (site === 'skull') return []
  const concerns: Concern[] = []
  const onIncus = site === 'incus-body' || site === 'incus-long-process'
  if (onIncus && [malleus, incus].some((state) => hampered.includes(state))) concerns.push('chain-not-mobile')
  if (hampered.includes(stapes)) concerns.push('stapes-not-mobile')
  // With both windows stiff the network leaves the fluid no way out; an ear has others (vessels, aqueducts).
  if (site === 'round-window' && hampered.includes(stapes)) concerns.push('window-loss-is-a-bound')
  return concerns
}
