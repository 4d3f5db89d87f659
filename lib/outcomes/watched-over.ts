import type { EarCourse } from './ear-course.ts'
import type { VisitVerdict } from './verdict.ts'
import { type WatchedTrigger, watchedAt } from './watched-trigger.ts'
import { type WordsTrigger, watchedWordsAt } from './watched-words.ts'

/** A trigger at every visit, in the order of time. */
export const watchedOver = (trigger: WatchedTrigger | WordsTrigger, course: EarCourse): readonly VisitVerdict[] =>
  course.visits.map(({ visit }, index) => ({
    visit,
    watched: 'levelDbSpl' in trigger ? watchedWordsAt(trigger, course, index) : watchedAt(trigger, course, index),
  }))
