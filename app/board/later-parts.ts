import { later, laterDialog } from '@/app/components/later.tsx'

/** Parts of the board that are fetched when somebody first does something with them, and ahead of that once the page is calm. */
export const AddPictureDialog = laterDialog(
  async () => (await import('./pictures/add-picture-dialog.tsx')).AddPictureDialog,
)
export const AnchorField = later(async () => (await import('./floor/anchor-field.tsx')).AnchorField)
export const CaseDetails = laterDialog(async () => (await import('./frame/case-details.tsx')).CaseDetails)
export const DraftsPanel = laterDialog(async () => (await import('./frame/drafts-panel.tsx')).DraftsPanel)
export const EntryBar = later(async () => (await import('./hearing/entry-bar.tsx')).EntryBar)
export const ExchangeDialog = laterDialog(async () => (await import('./exchange/exchange-dialog.tsx')).ExchangeDialog)
export const HearingDialogs = later(async () => (await import('./hearing/hearing-dialogs.tsx')).HearingDialogs)
export const FindingsList = later(async () => (await import('./measures/findings-list.tsx')).FindingsList)
export const ImportDialog = later(async () => (await import('./hearing/import-dialog.tsx')).ImportDialog)
export const OwnQuestions = later(async () => (await import('./floor/own-questions.tsx')).OwnQuestions)
export const PostGuardDialog = laterDialog(async () => (await import('./post-guard-dialog.tsx')).PostGuardDialog)
export const MeasuresPanel = later(async () => (await import('./measures/measures-panel.tsx')).MeasuresPanel)
export const PictureViewer = laterDialog(async () => (await import('./pictures/picture-viewer.tsx')).PictureViewer)
export const QuestionTask = later(async () => (await import('./floor/question-task.tsx')).QuestionTask)
export const SpeechForm = later(async () => (await import('./speech/speech-form.tsx')).SpeechForm)
export const SpeechTests = later(async () => (await import('./speech/speech-tests.tsx')).SpeechTests)
export const TestDesk = later(async () => (await import('./hearing/test-desk.tsx')).TestDesk)
export const ThreadBody = later(async () => (await import('./floor/thread-body.tsx')).ThreadBody)
export const OwnQuestionNotices = later(
  async () => (await import('./floor/own-question-notices.tsx')).OwnQuestionNotices,
)
export const PeoplePanel = laterDialog(async () => (await import('./frame/people-panel.tsx')).PeoplePanel)
export const ShortcutHelp = laterDialog(async () => (await import('./frame/shortcut-help.tsx')).ShortcutHelp)
export const WithdrawDialog = laterDialog(async () => (await import('./withdraw/withdraw-dialog.tsx')).WithdrawDialog)
export const CaseMenu = laterDialog(async () => (await import('./frame/case-menu.tsx')).CaseMenu)
