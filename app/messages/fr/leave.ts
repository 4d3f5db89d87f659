import type { leave as English } from '../en/leave.ts'
import type { Shape } from '../part.ts'
import { counted } from './numbers.ts'

export const leave: Shape<typeof English> = {
  title: 'Quitter cet ordinateur',
  lead: 'Vous déconnecte de ce navigateur et efface ce qu’il garde de vos cas, pour que personne ne les voie après vous.',
  known: (name, affiliation) => `Dans ce navigateur, vous êtes ${name}, ${affiliation}.`,
  nobody: 'Personne n’est connecté dans ce navigateur.',
  kept: (cases) =>
    cases === 0
      ? 'Ce navigateur ne garde aucune copie de cas.'
      : `Ce navigateur garde des copies de ${cases === 1 ? 'un cas' : `${cases} cas`} pour travailler sans liaison.`,
  stays:
    'Ce que vous avez écrit sur le tableau y reste. Pour revenir, il faut un lien : celui que vous avez reçu, s’il vaut encore.',
  lost: (edits, drafts) =>
    `△ Pas encore sur le tableau : ${[
      ...(edits === 0 ? [] : [counted(edits, 'modification', 'modifications')]),
      ...(drafts === 0 ? [] : [counted(drafts, 'brouillon', 'brouillons')]),
    ].join(
      ' et ',
    )}. Si vous partez maintenant, cela se perd. Ouvrez le tableau avec le réseau et attendez « enregistré », ou copiez les brouillons.`,
  act: 'Me déconnecter et tout effacer',
  actDespite: 'Partir quand même, et les perdre',
  back: 'Revenir',
  done: 'Vous êtes déconnecté',
  doneHint: 'Ce navigateur ne garde plus rien de vos cas.',
  held: 'Vous êtes déconnecté, mais une copie reste ici',
  heldHint: 'Une autre fenêtre de ce navigateur a un cas ouvert. Fermez-la, puis effacez de nouveau.',
  again: 'Effacer de nouveau',
}
