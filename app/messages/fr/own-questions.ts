import type { ownQuestions as English } from '../en/own-questions.ts'
import type { Shape } from '../part.ts'
import { whole } from './numbers.ts'

export const ownQuestions: Shape<typeof English> = {
  title: (count) => `Vos questions (${whole(count)})`,
  waits: (place, of) => `attend, ${whole(place)} sur ${whole(of)}`,
  joined: (text) => `rattachée à « ${text} »`,
  unnamed: 'sans votre nom',
  go: (text) => `Aller à : ${text}`,
  takeBack: 'La reprendre',
  takeBackHint: 'La question quitte toutes les pages, avec ses réponses. La revue du passé la montre encore.',
  notice: {
    called: 'À vous : votre question est appelée',
    answered: 'Votre question a sa réponse',
    joined: 'Votre question a été rattachée à une autre qui demande la même chose',
    go: 'Y aller',
    dismiss: 'Vu',
  },
}
