import { asDbGain, type DbGain } from '../units/levels.ts'

/** Most that a change of drive is shown to cost, dB: the largest purely conductive losses. From memory, unconfirmed. */
export const largestShownLossDb = 60

/**
 * The loss to show for a change of drive: never below 0 dB, because a resonance that moves up is no promise of a benefit,
 * and never above 60 dB. For displays and forecasts; the physics is not clipped.
 * @param changeDb change of drive, dB; negative is a loss; -Infinity where nothing arrives
 */
export const shownLossDb = (changeDb: number): DbGain => asDbGain(Math.min(largestShownLossDb, Math.max(0, -changeDb)))
