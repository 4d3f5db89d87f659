'use client'

import { type FormEvent, useState } from 'react'
import { sentenceOfFault, tellApi } from '@/app/api-client.ts'
import { useBoard, useBoardStatus, useSingle, useTable } from '@/app/board/board-context.tsx'
import { Button } from '@/app/components/button.tsx'
import { ChoiceBox } from '@/app/components/choice-box.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-withdraw.ts'
import { labelLength, type NewWithdrawal } from '@/lib/interchange/api.ts'
import { EarlierWithdrawals } from './earlier-withdrawals.tsx'
import styles from './withdraw-dialog.module.css'
import { keyOf, type Withdrawable, withdrawableIn } from './withdrawable.ts'

interface WithdrawDialogProps {
  readonly open: boolean
  readonly onClose: () => void
}

/** Takes something back from everybody: one thing, one reason, one press. */
export function WithdrawDialog({ open, onClose }: WithdrawDialogProps) {
  const { withdraw } = useMessages()
  return (
    <Dialog open={open} onClose={onClose} title={withdraw.title}>
      <Choosing onDone={onClose} />
    </Dialog>
  )
}

function Choosing({ onDone }: { readonly onDone: () => void }) {
  const messages = useMessages()
  const { withdraw, words } = messages
  const board = useBoard()
  const showing = useSingle('mainScreen')?.showing
  // Read when the dialog opens: a list that moves under the hand is no help in a hurry.
  const [choices] = useState(() => withdrawableIn(board, showing, messages))
  const [chosen, setChosen] = useState<Withdrawable | undefined>(() => choices.find(({ isOnScreen }) => isOnScreen))
  return (
    <div className={styles.parts}>
      <p>{withdraw.what}</p>
      {chosen === undefined ? (
        <ChoiceBox
          label={withdraw.which}
          hint={withdraw.whichHint}
          none={withdraw.none}
          focusAtOnce
          choices={choices.map((each) => ({
            id: keyOf(each),
            sort: words.kind[each.kind],
            label: each.title === '' ? words.kind[each.kind] : each.title,
          }))}
          onChoose={(key) => setChosen(choices.find((each) => keyOf(each) === key))}
        />
      ) : (
        <Withdrawing chosen={chosen} onOther={() => setChosen(undefined)} onDone={onDone} />
      )}
      <EarlierWithdrawals />
    </div>
  )
}

interface WithdrawingProps {
  readonly chosen: Withdrawable
  readonly onOther: () => void
  readonly onDone: () => void
}

function Withdrawing({ chosen, onOther, onDone }: WithdrawingProps) {
  const { withdraw, words } = useMessages()
  const { caseId } = useBoard()
  const isLive = useBoardStatus().link.state === 'live'
  const replies = useTable('replies').filter(({ question }) => question === chosen.id).length
  const say = useSay()
  const [reason, setReason] = useState('')
  const [fault, setFault] = useState<string>()
  const [isWorking, setWorking] = useState(false)
  const send = (event: FormEvent) => {
    event.preventDefault()
    if (reason.trim() === '') return setFault(withdraw.reasonMissing)
    setFault(undefined)
    setWorking(true)
    const body: NewWithdrawal = { kind: chosen.kind, id: chosen.id, reason }
    tellApi(`/api/cases/${encodeURIComponent(caseId)}/withdrawals`, { method: 'POST', body }).then(
      () => {
        say(withdraw.done)
        onDone()
      },
      (error: unknown) => {
        setFault(sentenceOfFault(error))
        setWorking(false)
      },
    )
  }
  return (
    <form className={styles.parts} onSubmit={send} noValidate>
      <div className={styles.chosen}>
        <p className={styles.sort}>
          {[
            chosen.isOnScreen ? withdraw.onScreenNow : withdraw.chosen,
            words.kind[chosen.kind],
            ...(replies === 0 ? [] : [withdraw.withReplies(replies)]),
          ].join(' · ')}
        </p>
        <p className={styles.title} dir="auto">
          {chosen.title}
        </p>
        <Button tone="quiet" onClick={onOther}>
          {withdraw.other}
        </Button>
      </div>
      <Field label={withdraw.reason} error={fault}>
        {(control) => (
          <input
            {...control}
            // biome-ignore lint/a11y/noAutofocus: somebody chose what is to go, and now writes why
            autoFocus
            data-first
            autoComplete="off"
            maxLength={labelLength}
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
        )}
      </Field>
      {!isLive && <p role="status">{withdraw.offline}</p>}
      <div>
        <Button type="submit" tone="stop" disabled={!isLive || isWorking}>
          {isWorking ? withdraw.working : withdraw.submit}
        </Button>
      </div>
    </form>
  )
}
