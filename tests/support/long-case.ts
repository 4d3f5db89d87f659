import type { Doc } from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { enterTest, type NewTest } from '../../lib/board/edits/hearing.ts'
import { enterSpeechTest } from '../../lib/board/edits/speech.ts'
import { type Pen, writeSingle } from '../../lib/board/edits/writing.ts'
import { type Point, type PointKey, type PointRoute, pointKey } from '../../lib/board/records/hearing-test.ts'
import type { Ear, FrequencyHz } from '../../lib/units/frequencies.ts'
import { asDbHl, asDbSpl } from '../../lib/units/levels.ts'
import { LightClient } from './light-client.ts'
import type { TestServer } from './start-server.ts'

const visits = 6
const airFrequencies: readonly FrequencyHz[] = [125, 250, 500, 750, 1000, 1500, 2000, 3000, 4000, 6000, 8000]
const boneFrequencies: readonly FrequencyHz[] = [250, 500, 750, 1000, 1500, 2000, 3000, 4000]

/**
 * A case with twelve hearing tests, six visits of both ears, the last ones current and not verified; with age and sex,
 * word scores and a reception threshold, so that everything there is to compute is computed.
 * @returns its id
 */
export async function createLongCase(server: TestServer, label: string): Promise<string> {
  const caseId = await server.createCase(label)
  const { cookie, participant } = await server.join('team', 'Clinic file')
  const client = await LightClient.join(`${server.syncUrl}/${documentName('record', caseId)}?own=1`, {
    headers: { cookie, origin: server.url },
  })
  let made = 0
  const pen: Pen = { participant: participant.id, now: () => new Date(), newId: () => `long-${++made}` }
  const edit = async (change: (doc: Doc) => void) => {
    const answer = await client.attempt(change)
    if (answer !== 'stored') throw new Error(`the long case was refused: ${JSON.stringify(answer)}`)
  }
  await edit((doc) =>
    writeSingle(doc, pen, 'header', {
      pseudonym: label,
      ear: 'right',
      ageYears: 54,
      sex: 'female',
      summary: '',
      phase: 'follow-up',
    }),
  )
  for (let visit = 0; visit < visits; visit++)
    for (const ear of ['right', 'left'] as const)
      await edit((doc) => enterTest(doc, pen, testOf(ear, visit), 'Measured again'))
  await edit((doc) => {
    for (const score of [
      { items: 20, right: 9, speechLevel: asDbSpl(65) },
      { items: 20, right: 15, speechLevel: asDbSpl(80) },
      { material: 'disyllables', receptionThreshold: asDbHl(50) },
    ] as const)
      enterSpeechTest(doc, pen, { ...lastSpeech, ...score }, '')
  })
  client.close()
  return caseId
}

const dayOf = (visit: number): string => `2025-0${visit + 1}-12`

function testOf(ear: Ear, visit: number): NewTest {
  return {
    ear,
    condition: 'unaided',
    performedOn: dayOf(visit),
    airTransducer: 'insert',
    boneTransducer: 'bone-mastoid',
    origin: 'typed',
    note: '',
    points: {
      ...row('air', false, airFrequencies, ear === 'right' ? 60 - 5 * Math.floor(visit / 3) : 10),
      ...row('bone', false, boneFrequencies, 10),
      ...(ear === 'right' ? row('bone', true, boneFrequencies, 15) : {}),
    },
  }
}

/** Thresholds that fall by 5 dB over every third frequency. */
const row = (
  route: PointRoute,
  masked: boolean,
  frequencies: readonly FrequencyHz[],
  from: number,
): Record<PointKey, Point> =>
  Object.fromEntries(
    frequencies.map((frequency, index) => [
      pointKey({ route, masked, frequency }),
      { kind: 'heard', level: asDbHl(from + 5 * Math.floor(index / 3)) },
    ]),
  )

const lastSpeech = {
  ear: 'right',
  condition: 'unaided',
  performedOn: dayOf(visits - 1),
  material: 'monosyllables',
  listName: '',
  note: '',
} as const
