'use client'

import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { Plan } from '@/lib/board/records/plan.ts'
import { Actuator } from '@/lib/devices/drives.ts'
import { FixationPlace, type Scenario } from '@/lib/devices/scenario.ts'
import type { WhatIf } from '../case-forecast.ts'
import { decadeStep, firstPlace, leftDecades, patched, percentLeft, shareLeft, timesDecades } from './scenario-draft.ts'
import styles from './scenario-sliders.module.css'
import { Slider } from './slider.tsx'

interface ScenarioSlidersProps {
  readonly whatIf: WhatIf
  readonly incus: Plan['incus']
  readonly onChange: (whatIf: WhatIf) => void
}

interface PartProps {
  readonly scenario: Scenario
  readonly change: (patch: Parameters<typeof patched>[1]) => void
}

/** What may become of the ear: each thing with its slider and its value. */
export function ScenarioSliders({ whatIf, incus, onChange }: ScenarioSlidersProps) {
  const { whatIf: words } = useMessages()
  const { scenario } = whatIf
  const change: PartProps['change'] = (patch) => onChange({ ...whatIf, scenario: patched(scenario, patch) })
  return (
    <div className={styles.sliders}>
      <Fixation scenario={scenario} change={change} incus={incus} />
      <Contact scenario={scenario} change={change} />
      <MalleusIncus scenario={scenario} change={change} />
      <IncusStapes scenario={scenario} change={change} />
      <Years scenario={scenario} change={change} />
      <Field label={words.slider.actuator}>
        {(control) => (
          <select
            {...control}
            value={whatIf.actuator}
            onChange={(event) => onChange({ ...whatIf, actuator: Actuator.parse(event.target.value) })}
          >
            {Actuator.options.map((actuator) => (
              <option key={actuator} value={actuator}>
                {words.actuator[actuator]}
              </option>
            ))}
          </select>
        )}
      </Field>
    </div>
  )
}

function Fixation({ scenario, change, incus }: PartProps & { readonly incus: Plan['incus'] }) {
  const { whatIf: words } = useMessages()
  const { at, times = 1 } = scenario.fixation ?? {}
  const hold = (next: number) => change({ fixation: { at: at ?? firstPlace(incus), times: next } })
  const moveTo = (place: string) => {
    const next = FixationPlace.options.find((option) => option === place)
    change({ fixation: next && { at: next, times: times > 1 ? times : 10 } })
  }
  return (
    <Slider
      label={words.slider.fixation}
      hint={words.sliderHint.fixation}
      unit={words.unit.times}
      position={timesDecades.positionOf(times)}
      longest={timesDecades.longest}
      step={decadeStep}
      value={times}
      smallest={1}
      largest={1000}
      spoken={words.spokenTimes(times)}
      onSlide={(position) => hold(timesDecades.valueAt(position))}
      onType={hold}
    >
      <select aria-label={words.slider.fixationAt} value={at ?? ''} onChange={(event) => moveTo(event.target.value)}>
        <option value="">{words.place.none}</option>
        {FixationPlace.options.map((place) => (
          <option key={place} value={place}>
            {words.place[place]}
          </option>
        ))}
      </select>
    </Slider>
  )
}

function Contact({ scenario, change }: PartProps) {
  const { whatIf: words } = useMessages()
  const { lossDb = 0 } = scenario.contact ?? {}
  const lose = (next: number) => change({ contact: next > 0 ? { lossDb: next } : undefined })
  return (
    <Slider
      label={words.slider.contact}
      hint={words.sliderHint.contact}
      unit={words.unit.db}
      position={lossDb}
      longest={20}
      step={0.5}
      value={lossDb}
      smallest={0}
      largest={20}
      spoken={words.spokenDb(lossDb)}
      onSlide={lose}
      onType={lose}
    />
  )
}

function MalleusIncus({ scenario, change }: PartProps) {
  const { whatIf: words } = useMessages()
  return (
    <JointSlider
      label={words.slider.malleusIncus}
      share={scenario.malleusIncusSlack}
      onChange={(share) => change({ malleusIncusSlack: share })}
    />
  )
}

function IncusStapes({ scenario, change }: PartProps) {
  const { whatIf: words } = useMessages()
  const { incusStapes } = scenario
  const isApart = incusStapes?.kind === 'apart'
  return (
    <div className={styles.joint}>
      <JointSlider
        label={words.slider.incusStapes}
        share={incusStapes?.kind === 'slack' ? incusStapes.factor : undefined}
        disabled={isApart}
        onChange={(share) =>
          change({ incusStapes: share === undefined ? undefined : { kind: 'slack', factor: share } })
        }
      />
      <label className={styles.check}>
        <input
          type="checkbox"
          checked={isApart}
          onChange={(event) => change({ incusStapes: event.currentTarget.checked ? { kind: 'apart' } : undefined })}
        />
        {words.slider.apart}
      </label>
    </div>
  )
}

interface JointSliderProps {
  readonly label: string
  readonly share: number | undefined
  readonly disabled?: boolean
  readonly onChange: (share: number | undefined) => void
}

function JointSlider({ label, share, disabled = false, onChange }: JointSliderProps) {
  const { whatIf: words } = useMessages()
  const percent = percentLeft(share)
  return (
    <Slider
      label={label}
      hint={words.sliderHint.joint}
      unit={words.unit.percent}
      position={leftDecades.positionOf(percent)}
      longest={leftDecades.longest}
      step={decadeStep}
      value={percent}
      smallest={1}
      largest={100}
      spoken={words.spokenPercent(percent)}
      disabled={disabled}
      onSlide={(position) => onChange(shareLeft(leftDecades.valueAt(position)))}
      onType={(next) => onChange(shareLeft(next))}
    />
  )
}

function Years({ scenario, change }: PartProps) {
  const { whatIf: words } = useMessages()
  const { innerEarYears = 0 } = scenario
  const age = (next: number) => change({ innerEarYears: next > 0 ? next : undefined })
  return (
    <Slider
      label={words.slider.years}
      hint={words.sliderHint.years}
      unit={words.unit.years}
      position={innerEarYears}
      longest={30}
      step={1}
      value={innerEarYears}
      smallest={0}
      largest={30}
      spoken={words.spokenYears(innerEarYears)}
      onSlide={age}
      onType={age}
    />
  )
}
