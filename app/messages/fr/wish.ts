import type { WishWords } from '@/lib/board/wish.ts'

/** Beginnings of words, so that « fixé » and « fixation » are one. */
export const wishWords: WishWords = {
  topics: {
    fixation: [
      'fix',
      'refix',
      'raid',
      'anky',
      'ossif',
      'osseux',
      'nouv',
      'récid',
      'recid',
      'otosp',
      'adhér',
      'adher',
      'cicat',
    ],
    coupling: [
      'coupl',
      'contact',
      'gliss',
      'lâch',
      'lach',
      'clip',
      'dépla',
      'depla',
      'migr',
      'luxa',
      'extru',
      'graiss',
      'relâch',
    ],
    gap: ['rinne', 'transmis', 'écart', 'ecart'],
    'inner-ear': ['os', 'interne', 'cochlé', 'cochle', 'percep', 'nerf', 'brusq', 'neuro'],
    benefit: ['bénéf', 'benef', 'gain', 'entend', 'aide', 'port', 'util', 'inutil', 'pire', 'moins'],
    forecast: ['prévi', 'previ', 'prévu', 'prevu', 'attend', 'prom', 'court'],
    words: ['mot', 'parole', 'compren', 'compris', 'intelligib', 'discrimin', 'score', 'syllab', 'conversation'],
    'other-ear': ['autre', 'oppos', 'contro', 'asym', 'côté', 'cote'],
  },
  conjunctions: ['si', 'quand', 'lorsque', 'dès que', 'au cas où', 'en cas de'],
}
