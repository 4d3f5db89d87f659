import type { DeviceProfile } from '../../devices/device-profile.ts'
import type { EvidenceSource } from '../../devices/evidence-source.ts'
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

const likeAid: EvidenceSource = {
  id: 'sensorineural-like-aid',
  citation:
    'Butler et al. 2013, J Laryngol Otol 127 suppl. 2: active middle-ear implant against external aid in sensorineural loss, 14 comparative studies: functional gain generally without a clinically significant difference (10 dB or more). Kahue et al. 2014 (17 studies) finds the same',
  status: 'confirmed',
  readAt:
    'https://www.cambridge.org/core/product/2109D772F2561B20BC4437281EB65CD1 (abstract); https://www.scholarmate.com/S/egfyze (abstract)',
  reservation:
    'the gain of the aid is that of the half-gain rule, not what was measured in these studies; the site is taken to be the long process',
}

const floatingBody: EvidenceSource = {
  id: 'floating-mass-envelope',
  citation:
    'Generic envelope of a floating-mass actuator: about 1.8 mm in diameter, 2.3 mm long, 25 mg in all; labelling of the single device prevails. Nothing is known here of fixed-frame actuators',
  status: 'approximate, from memory',
}

const onIncus = { id: 'incus', lowDbHl: 85, highDbHl: 100, source: outputTable.id }
const onWindow = { id: 'window', lowDbHl: 75, highDbHl: 90, source: outputTable.id }

export const activeMiddleEarImplant: DeviceProfile = {
  id: 'active-middle-ear-implant',
  version: 2,
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
  withoutGap: { like: 'air-conduction-aid', reference: 'incus-long-process', source: likeAid.id },
  bodies: [
    {
      id: 'floating-mass',
      drive: 'floating-mass',
      massMg: 25,
      envelope: [
        { dimension: 'diameter', mm: 1.8 },
        { dimension: 'length', mm: 2.3 },
      ],
      source: floatingBody.id,
    },
  ],
  sources: [gainTable, outputTable, busch, buschLent, buschIncusLent, cochlearLoss, likeAid, floatingBody],
}
