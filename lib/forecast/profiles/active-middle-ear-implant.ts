import type { DeviceProfile } from '../device-profile.ts'
import type { EvidenceSource } from '../evidence.ts'
import { gainRow, gainTable, outputTable } from './shared-evidence.ts'

const readAt = 'https://karger.com/aud/article-abstract/21/6/347/44533 (abstract)'
const citation =
  'Busch et al. 2016, Audiol Neurotol 21:347-355: mean bone-conduction threshold (dB nHL) with half of the monosyllables right at 65 dB SPL, by coupling, 137 ears'
const fourFrequencies = 'the four frequencies of the mean are taken to be 0.5, 1, 2 and 4 kHz'

const busch: EvidenceSource = { id: 'busch-2016', citation, status: 'confirmed', readAt, reservation: fourFrequencies }

const buschLent: EvidenceSource = {
  ...busch,
  id: 'busch-2016-oval-window-lent',
  reservation: `measured on the oval window with a coupler and lent to the stapes head, which has no published value here; ${fourFrequencies}`,
}

const buschIncusLent: EvidenceSource = {
  ...busch,
  id: 'busch-2016-incus-lent',
  reservation: `the source speaks of the incus without naming body or short process; ${fourFrequencies}`,
}

const cochlearLoss: EvidenceSource = {
  id: 'class-by-cochlear-loss',
  citation: 'Review of implantable hearing devices, GMS Curr Top Otorhinolaryngol 2017;16, cto000145',
  status: 'confirmed',
  readAt: 'https://www.egms.de/static/en/journals/cto/2017-16/cto000145.shtml',
}

const onIncus = { id: 'incus', lowDbHl: 85, highDbHl: 100, source: outputTable.id }
const onWindow = { id: 'window', lowDbHl: 75, highDbHl: 90, source: outputTable.id }

export const activeMiddleEarImplant: DeviceProfile = {
  id: 'active-middle-ear-implant',
  deviceClass: 'active-middle-ear-implant',
  candidacy: {
    remark: 'Moderate to severe cochlear loss; incus sites need a mobile chain. Limits of the labelling decide.',
    source: cochlearLoss.id,
  },
  couplings: [
    {
      sites: ['incus-long-process'],
      gain: gainRow([0, 3, 5, 4, 2]),
      outputs: [onIncus],
      wordAnchors: [{ variant: 'only', boneDbHlAtHalf: 48.2, n: 59, source: busch.id }],
    },
    {
      sites: ['incus-body'],
      gain: gainRow([-2, 2, 5, 4, 2]),
      outputs: [onIncus],
      wordAnchors: [{ variant: 'only', boneDbHlAtHalf: 48.2, n: 59, source: buschIncusLent.id }],
    },
    {
      sites: ['stapes-head'],
      gain: gainRow([-6, 0, 5, 5, 3]),
      outputs: [onWindow],
      wordAnchors: [{ variant: 'only', boneDbHlAtHalf: 49.0, n: 33, source: buschLent.id }],
    },
    {
      sites: ['oval-window'],
      gain: gainRow([-6, 0, 5, 5, 3]),
      outputs: [onWindow],
      wordAnchors: [{ variant: 'with-coupler', boneDbHlAtHalf: 49.0, n: 33, source: busch.id }],
    },
    {
      sites: ['round-window'],
      gain: gainRow([-10, -3, 4, 4, 2]),
      outputs: [onWindow],
      wordAnchors: [
        { variant: 'without-coupler', boneDbHlAtHalf: 47.8, n: 22, source: busch.id },
        { variant: 'with-coupler', boneDbHlAtHalf: 67.9, n: 23, source: busch.id },
      ],
    },
  ],
  sources: [gainTable, outputTable, busch, buschLent, buschIncusLent, cochlearLoss],
}
