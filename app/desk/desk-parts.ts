import {
  AddPictureDialog,
  DraftsPanel,
  PeoplePanel,
  PictureViewer,
  PostGuardDialog,
  QuestionTask,
  ShortcutHelp,
  WithdrawDialog,
} from '@/app/board/later-parts.ts'

/** The forms of the desk come with it: what is typed right after a key must find its field. */
export const loadDeskParts = (): Promise<unknown> =>
  Promise.all(
    [
      AddPictureDialog,
      PictureViewer,
      PostGuardDialog,
      QuestionTask,
      ShortcutHelp,
      DraftsPanel,
      PeoplePanel,
      WithdrawDialog,
    ].map((part) => part.load()),
  )
