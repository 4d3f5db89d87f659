import type { Thread } from '@/lib/board/edits/floor.ts'
import type { FloorDesk } from './floor-desk.ts'
import { AnswerForm, DeferForm, FoldForm, ReplyForm, RewordForm, TakeBackForm } from './question-forms.tsx'
import type { Task } from './question-row.tsx'

interface QuestionTaskProps {
  readonly task: Task
  readonly thread: Thread
  readonly threads: readonly Thread[]
  readonly desk: FloorDesk
  readonly onTaskDone: () => void
}

/** The form of what is being done to a question. */
export function QuestionTask({ task, thread, threads, desk, onTaskDone }: QuestionTaskProps) {
  const shared = { thread, desk, onDone: onTaskDone }
  switch (task) {
    case 'answer':
    case 'draftAnswer':
      return <AnswerForm {...shared} />
    case 'defer':
      return <DeferForm {...shared} />
    case 'reply':
      return <ReplyForm {...shared} />
    case 'reword':
      return <RewordForm {...shared} />
    case 'takeBack':
      return <TakeBackForm {...shared} />
    case 'fold':
      return <FoldForm {...shared} threads={threads} />
    default:
      return task satisfies never
  }
}
