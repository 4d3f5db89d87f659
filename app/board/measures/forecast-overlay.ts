import type { Messages } from '@/app/messages/use-messages.ts'
import type { HearingTest } from '@/lib/board/records/hearing-test.ts'
import type { Plan } from '@/lib/board/records/plan.ts'
import type { SpeechTest } from '@/lib/board/records/speech-test.ts'
import { plannedForecast } from '../plan/case-forecast.ts'
import { forecastLevelBand } from '../plan/level-band.ts'
import type { Overlay } from './overlays.ts'

/** The forecast of the plan as it stands, from the current tests of its ear and what was found in it. */
export function forecastOverlay(
  plan: Plan | undefined,
  tests: readonly HearingTest[],
  speechTests: readonly SpeechTest[],
  messages: Messages,
): Overlay {
  const words = messages.measures.overlays
  const record = { plan, header: undefined, tests, speechTests, profiles: [] }
  const outcome = plannedForecast(record)
  if (plan === undefined || !outcome.ok) return { ok: false, reason: words.refused['no-forecast'] }
  const band = forecastLevelBand(plan.ear, outcome.forecast)
  if (band.limits.length < 2) return { ok: false, reason: words.refused['no-forecast'] }
  return {
    ok: true,
    bands: [band],
    legends: [{ kind: 'forecast', ear: plan.ear, text: words.forecastLegend(plan.ear) }],
  }
}
