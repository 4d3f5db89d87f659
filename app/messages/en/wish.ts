import type { WishWords } from '@/lib/board/wish.ts'

/** How a wish is understood. Beginnings of words, so that "fixed" and "fixation" are one. */
export const wishWords: WishWords = {
  topics: {
    fixation: ['fix', 'refix', 'stiff', 'anky', 'ossif', 'bony', 'new', 'recur', 'otoscl', 'adhes', 'scar'],
    coupling: ['coupl', 'contact', 'slip', 'loose', 'clip', 'displac', 'migrat', 'dislocat', 'extru', 'fat', 'shrink'],
    gap: ['gap', 'conductive'],
    'inner-ear': ['bone', 'inner', 'cochle', 'sensorineural', 'nerve', 'sudden'],
    benefit: ['benefit', 'gain', 'hears', 'help', 'wear', 'use', 'useless', 'worse'],
    forecast: ['forecast', 'predict', 'expect', 'promis', 'short'],
    words: ['word', 'speech', 'understand', 'understood', 'intelligib', 'discrimin', 'score', 'syllab', 'conversation'],
    'other-ear': ['other', 'opposite', 'contralateral', 'asymmetr', 'side'],
  },
  conjunctions: ['if', 'when', 'once', 'should', 'in case'],
}
