'use client'

import { useState } from 'react'
import { usePostGuard } from '@/app/board/post-guard.tsx'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { NewTest } from '@/lib/board/edits/hearing.ts'
import { CalendarDay, textLimits } from '@/lib/board/identity.ts'
import { type HearingTest, TestCondition } from '@/lib/board/records/hearing-test.ts'
import { Ear } from '@/lib/units/frequencies.ts'
import styles from './dialogs.module.css'
import { reasonProblem } from './reason-dialog.tsx'

interface NewTestDialogProps {
  readonly ear: Ear
  /** today, ISO 8601 */
  readonly today: string
  readonly currentOf: (ear: Ear, condition: TestCondition) => HearingTest | undefined
  readonly sentenceOf: (test: HearingTest) => string
  /** what the fields begin with, where that is known */
  readonly initial?: Partial<Pick<Draft, 'condition' | 'performedOn' | 'reason'>>
  readonly onClose: () => void
  readonly onEnter: (test: NewTest, reason: string) => void
}

const airTransducers = ['supra-aural', 'circum-aural', 'insert'] as const
const boneTransducers = ['bone-mastoid', 'bone-forehead'] as const

interface Draft {
  readonly ear: Ear
  readonly condition: TestCondition
  readonly performedOn: string
  readonly air: (typeof airTransducers)[number] | ''
  readonly bone: (typeof boneTransducers)[number] | ''
  readonly device: string
  readonly note: string
  readonly reason: string
  readonly copy: boolean
}

/** A test entered by hand: its circumstances here, its numbers afterwards in the grid or on the chart. */
export function NewTestDialog(props: NewTestDialogProps) {
  const { hearing, shell } = useMessages()
  const beforePosting = usePostGuard()
  const [tried, setTried] = useState(false)
  const [draft, setDraft] = useState<Draft>({
    ear: props.ear,
    condition: 'unaided',
    performedOn: props.today,
    air: '',
    bone: '',
    device: '',
    note: '',
    reason: '',
    copy: false,
    ...props.initial,
  })
  const change = (patch: Partial<Draft>) => setDraft((before) => ({ ...before, ...patch }))
  const current = props.currentOf(draft.ear, draft.condition)
  const problems = useProblems(draft, current, props.today)
  const submit = () => {
    setTried(true)
    if (Object.values(problems).some((problem) => problem !== undefined)) return
    beforePosting(`${draft.device}\n${draft.note}\n${draft.reason}`, () =>
      props.onEnter(testOf(draft, current), draft.reason.trim()),
    )
  }
  const shown = (problem: string | undefined) => (tried ? problem : undefined)
  return (
    <Dialog open onClose={props.onClose} title={hearing.newTest.title}>
      <form
        className={styles.form}
        noValidate
        onSubmit={(event) => {
          event.preventDefault()
          submit()
        }}
      >
        <Circumstances draft={draft} change={change} dateProblem={shown(problems.performedOn)} today={props.today} />
        {draft.condition === 'unaided' && <Transducers draft={draft} change={change} />}
        {draft.condition === 'aided' && (
          <Field label={hearing.newTest.device} hint={hearing.newTest.deviceHint} error={shown(problems.device)}>
            {(control) => (
              <input
                {...control}
                value={draft.device}
                onChange={(event) => change({ device: event.currentTarget.value })}
              />
            )}
          </Field>
        )}
        <Field label={hearing.newTest.note} error={shown(problems.note)}>
          {(control) => (
            <textarea
              {...control}
              rows={2}
              value={draft.note}
              onChange={(event) => change({ note: event.currentTarget.value })}
            />
          )}
        </Field>
        {current !== undefined && (
          <Supersedes
            draft={draft}
            change={change}
            sentence={props.sentenceOf(current)}
            problem={shown(problems.reason)}
          />
        )}
        <div className={styles.buttons}>
          <Button type="submit" tone="accent">
            {hearing.newTest.submit}
          </Button>
          <Button onClick={props.onClose}>{shell.cancel}</Button>
        </div>
      </form>
    </Dialog>
  )
}

interface PartProps {
  readonly draft: Draft
  readonly change: (patch: Partial<Draft>) => void
}

interface CircumstancesProps extends PartProps {
  readonly dateProblem: string | undefined
  readonly today: string
}

function Circumstances({ draft, change, dateProblem, today }: CircumstancesProps) {
  const { hearing, words } = useMessages()
  return (
    <div className={styles.pair}>
      <Field label={hearing.newTest.ear}>
        {(control) => (
          <select
            {...control}
            value={draft.ear}
            onChange={(event) => change({ ear: Ear.parse(event.currentTarget.value) })}
          >
            {Ear.options.map((ear) => (
              <option key={ear} value={ear}>
                {words.ear[ear]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={hearing.newTest.condition}>
        {(control) => (
          <select
            {...control}
            value={draft.condition}
            onChange={(event) => change({ condition: TestCondition.parse(event.currentTarget.value) })}
          >
            {TestCondition.options.map((condition) => (
              <option key={condition} value={condition}>
                {words.condition[condition]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={hearing.newTest.performedOn} error={dateProblem}>
        {(control) => (
          <input
            {...control}
            type="date"
            max={today}
            value={draft.performedOn}
            onChange={(event) => change({ performedOn: event.currentTarget.value })}
          />
        )}
      </Field>
    </div>
  )
}

function Transducers({ draft, change }: PartProps) {
  const { hearing } = useMessages()
  const { transducers, unknown } = hearing.newTest
  return (
    <div className={styles.pair}>
      <Field label={hearing.newTest.airTransducer}>
        {(control) => (
          <select
            {...control}
            value={draft.air}
            onChange={(event) =>
              change({ air: airTransducers.find((name) => name === event.currentTarget.value) ?? '' })
            }
          >
            <option value="">{unknown}</option>
            {airTransducers.map((name) => (
              <option key={name} value={name}>
                {transducers[name]}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field label={hearing.newTest.boneTransducer}>
        {(control) => (
          <select
            {...control}
            value={draft.bone}
            onChange={(event) =>
              change({ bone: boneTransducers.find((name) => name === event.currentTarget.value) ?? '' })
            }
          >
            <option value="">{unknown}</option>
            {boneTransducers.map((name) => (
              <option key={name} value={name}>
                {transducers[name]}
              </option>
            ))}
          </select>
        )}
      </Field>
    </div>
  )
}

function Supersedes({
  draft,
  change,
  sentence,
  problem,
}: PartProps & { sentence: string; problem: string | undefined }) {
  const { hearing } = useMessages()
  return (
    <>
      <Field label={hearing.newTest.reason} hint={hearing.newTest.reasonHint(sentence)} error={problem}>
        {(control) => (
          <textarea
            {...control}
            rows={2}
            value={draft.reason}
            onChange={(event) => change({ reason: event.currentTarget.value })}
          />
        )}
      </Field>
      <label className={styles.check}>
        <input
          type="checkbox"
          checked={draft.copy}
          onChange={(event) => change({ copy: event.currentTarget.checked })}
        />
        {hearing.newTest.copyPoints}
      </label>
    </>
  )
}

function useProblems(draft: Draft, current: HearingTest | undefined, today: string) {
  const { hearing } = useMessages()
  const tooLong = (text: string, most: number) =>
    text.trim().length > most ? hearing.notes.textTooLong(text.trim().length, most) : undefined
  return {
    performedOn: !CalendarDay.safeParse(draft.performedOn).success
      ? hearing.newTest.missingDate
      : draft.performedOn > today
        ? hearing.newTest.futureDate
        : undefined,
    device: tooLong(draft.device, textLimits.short),
    note: tooLong(draft.note, textLimits.long),
    reason: current === undefined ? undefined : reasonProblem(draft.reason, hearing),
  }
}

function testOf(draft: Draft, current: HearingTest | undefined): NewTest {
  const { ear, condition, performedOn, air, bone, device, note, copy } = draft
  return {
    ear,
    condition,
    performedOn,
    origin: 'typed',
    note: note.trim(),
    points: copy && current !== undefined ? current.points : {},
    ...(copy && current?.repeatAt1000 !== undefined ? { repeatAt1000: current.repeatAt1000 } : {}),
    ...(condition === 'unaided' && air !== '' ? { airTransducer: air } : {}),
    ...(condition === 'unaided' && bone !== '' ? { boneTransducer: bone } : {}),
    ...(condition === 'aided' && device.trim() !== '' ? { device: device.trim() } : {}),
  }
}
