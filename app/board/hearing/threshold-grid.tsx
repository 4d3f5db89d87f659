'use client'

import { equalityDeep } from 'lib0/function'
import {
  type ClipboardEvent,
  type KeyboardEvent,
  memo,
  type RefObject,
  useId,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import {
  type HearingTest,
  type Point,
  type PointKey,
  type PointPlace,
  pointKey,
  routesOf,
} from '@/lib/board/records/hearing-test.ts'
import { writePoint } from '@/lib/interchange/point-text.ts'
import type { FrequencyHz } from '@/lib/units/frequencies.ts'
import { type CellWish, remarksOn, wishOfNoResponse, wishOfText } from './cell-entry.ts'
import { type Cell, moved } from './grid-moves.ts'
import styles from './threshold-grid.module.css'

interface ThresholdGridProps {
  /** which test, in words */
  readonly sentence: string
  readonly test: Pick<HearingTest, 'condition' | 'points'>
  readonly frequencies: readonly FrequencyHz[]
  /** who changed a point last, for points that somebody else changed while this page was open */
  readonly changes: ReadonlyMap<PointKey, string>
  readonly onSet: (key: PointKey, point: Point | undefined) => void
  /** a table was pasted instead of one value */
  readonly onTable: (text: string) => void
  readonly onTyping: (typing: boolean) => void
}

/** Thresholds as a grid for the keyboard: a row for each route and masking, a column for each frequency. */
export function ThresholdGrid(props: ThresholdGridProps) {
  const { hearing, audiogram } = useMessages()
  const grid = useGrid(props)
  const hintId = useId()
  return (
    <div className={styles.grid}>
      <div className={styles.scroll}>
        <table
          className={styles.table}
          // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: the grid pattern of ARIA keeps the table's own cells and headers
          role="grid"
          aria-label={hearing.grid.label(props.sentence)}
          aria-describedby={hintId}
        >
          <thead>
            <tr>
              <th scope="col">{hearing.grid.corner}</th>
              {props.frequencies.map((frequency) => (
                <th key={frequency} scope="col" abbr={`${frequency} ${audiogram.frequencyUnit}`}>
                  {frequency}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {grid.rows.map((row, rowIndex) => (
              <tr key={row.label}>
                <th scope="row">{row.label}</th>
                {row.places.map((place, column) => (
                  <PlacedCell
                    key={place.frequency}
                    grid={grid}
                    place={place}
                    label={hearing.grid.cell(row.label, place.frequency)}
                    row={rowIndex}
                    column={column}
                  />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <GridFoot grid={grid} hintId={hintId} />
    </div>
  )
}

interface GridRow {
  readonly label: string
  readonly places: readonly PointPlace[]
}

type Grid = ReturnType<typeof useGrid>

function useRows({ test, frequencies }: ThresholdGridProps): readonly GridRow[] {
  const { hearing } = useMessages()
  return useMemo(
    () =>
      routesOf[test.condition].flatMap((route) =>
        [false, true].map((masked) => ({
          label: `${hearing.grid.row[route]} ${masked ? hearing.grid.masked : hearing.grid.unmasked}`,
          places: frequencies.map((frequency) => ({ route, masked, frequency })),
        })),
      ),
    [test.condition, frequencies, hearing],
  )
}

function useGrid(props: ThresholdGridProps) {
  const { test, changes, onSet, onTyping, onTable } = props
  const rows = useRows(props)
  const [drafts, setDrafts] = useState<ReadonlyMap<PointKey, string>>(new Map())
  const [faults, setFaults] = useState<ReadonlyMap<PointKey, CellWish & { kind: 'fault' }>>(new Map())
  const [active, setActive] = useState<Cell>({ row: 0, column: 0 })
  const inputs = useRef(new Map<PointKey, HTMLInputElement>())
  const placeAt = ({ row, column }: Cell) => rows[row]?.places[column] ?? rows[0]?.places[0]

  const draft = (key: PointKey, text: string | undefined) => {
    setDrafts((before) => changed(before, key, text))
    setFaults((before) => changed(before, key, undefined))
    onTyping(text !== undefined)
  }
  /** True when the cell now holds what was asked for; a fault keeps what was typed. */
  const carryOut = (key: PointKey, wish: CellWish): boolean => {
    if (wish.kind === 'fault') {
      setFaults((before) => changed(before, key, wish))
      return false
    }
    draft(key, undefined)
    onSet(key, wish.point)
    return true
  }
  const take = (place: PointPlace): boolean => {
    const text = drafts.get(pointKey(place))
    return text === undefined || carryOut(pointKey(place), wishOfText(text, place))
  }
  const go = (to: Cell) => {
    const place = placeAt(to)
    if (place === undefined) return
    setActive(to)
    const input = inputs.current.get(pointKey(place))
    input?.focus()
    input?.select()
  }
  const acts = {
    noResponse: (place: PointPlace) => {
      const key = pointKey(place)
      carryOut(key, wishOfNoResponse(drafts.get(key) ?? '', test.points[key], place))
    },
    couldNotTest: (place: PointPlace) => carryOut(pointKey(place), { kind: 'set', point: { kind: 'could-not-test' } }),
    clear: (place: PointPlace) => carryOut(pointKey(place), { kind: 'set', point: undefined }),
    changeSign: (place: PointPlace) => {
      const key = pointKey(place)
      const text = drafts.get(key) ?? shownText(test.points[key])
      draft(key, text.startsWith('-') ? text.slice(1) : `-${text}`)
    },
  }
  const onKey = (event: KeyboardEvent, at: Cell, place: PointPlace) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return
    const key = pointKey(place)
    const to =
      event.key === 'Enter'
        ? moved(at, 'ArrowRight', rows.length, props.frequencies.length)
        : moved(at, event.key, rows.length, props.frequencies.length)
    const act = { n: acts.noResponse, x: acts.couldNotTest, Delete: acts.clear }[
      event.key.length === 1 ? event.key.toLowerCase() : event.key
    ]
    if (to !== undefined) {
      if (take(place)) go(to)
    } else if (event.key === 'Escape' && drafts.has(key)) draft(key, undefined)
    else if (act !== undefined) act(place)
    else return
    event.preventDefault()
  }
  const onPaste = (event: ClipboardEvent) => {
    const text = event.clipboardData.getData('text')
    if (!/[\t\n;]/.test(text.trim())) return
    event.preventDefault()
    onTable(text)
  }
  return {
    rows,
    drafts,
    faults,
    active,
    placeAt,
    go,
    acts,
    onCell: useStableHands({ setActive, inputs, draft, take, onKey, onPaste }),
    test,
    changes,
  }
}

function changed<K, V>(map: ReadonlyMap<K, V>, key: K, value: V | undefined): ReadonlyMap<K, V> {
  if (map.get(key) === value) return map
  const next = new Map(map)
  if (value === undefined) next.delete(key)
  else next.set(key, value)
  return next
}

const shownText = (point: Point | undefined): string => (point === undefined ? '' : writePoint(point))

interface Hands {
  readonly setActive: (at: Cell) => void
  readonly inputs: RefObject<Map<PointKey, HTMLInputElement>>
  readonly draft: (key: PointKey, text: string) => void
  readonly take: (place: PointPlace) => boolean
  readonly onKey: (event: KeyboardEvent, at: Cell, place: PointPlace) => void
  readonly onPaste: (event: ClipboardEvent) => void
}

/** What a cell calls, the same for as long as the grid stands, so that one number draws one cell again and not all. */
function useStableHands(hands: Hands): Hands {
  const latest = useRef(hands)
  useLayoutEffect(() => {
    latest.current = hands
  })
  return useMemo(
    () => ({
      setActive: (at) => latest.current.setActive(at),
      inputs: latest.current.inputs,
      draft: (key, text) => latest.current.draft(key, text),
      take: (place) => latest.current.take(place),
      onKey: (event, at, place) => latest.current.onKey(event, at, place),
      onPaste: (event) => latest.current.onPaste(event),
    }),
    [],
  )
}

interface PlacedCellProps {
  readonly grid: Grid
  readonly place: PointPlace
  readonly label: string
  readonly row: number
  readonly column: number
}

/** Of the whole grid, what one cell shows. */
function PlacedCell({ grid, place, ...shown }: PlacedCellProps) {
  const { test, drafts, faults, changes, active, onCell } = grid
  const key = pointKey(place)
  return (
    <GridCell
      {...shown}
      place={place}
      point={test.points[key]}
      draft={drafts.get(key)}
      fault={faults.get(key)}
      changedBy={changes.get(key)}
      active={active.row === shown.row && active.column === shown.column}
      on={onCell}
    />
  )
}

interface GridCellProps extends Omit<PlacedCellProps, 'grid'> {
  readonly point: Point | undefined
  readonly draft: string | undefined
  readonly fault: (CellWish & { kind: 'fault' }) | undefined
  /** who else changed it last */
  readonly changedBy: string | undefined
  readonly active: boolean
  readonly on: Hands
}

/** A test is read anew with every edit: the points that nobody touched are other objects with the same content. */
const isSameCell = ({ point, ...rest }: GridCellProps, { point: next, ...nextRest }: GridCellProps): boolean =>
  equalityDeep(point, next) &&
  (Object.keys(rest) as (keyof typeof rest)[]).every((name) => Object.is(rest[name], nextRest[name]))

const GridCell = memo(function GridCell(props: GridCellProps) {
  const { place, label, row, column, point, draft, fault, active, on } = props
  const { hearing } = useMessages()
  const noteId = useId()
  const key = pointKey(place)
  const remarks = remarksOn(point, place)
  const notes = useCellNotes(props)
  return (
    <td
      className={styles.cell}
      data-kind={point?.kind ?? 'not-tested'}
      data-draft={draft !== undefined}
      data-faulty={fault !== undefined}
      data-changed={props.changedBy !== undefined}
      data-off-grid={remarks.some(({ code }) => code === 'off-grid')}
      data-beyond={remarks.some(({ code }) => code === 'beyond')}
    >
      <input
        ref={(input) => {
          if (input === null) on.inputs.current.delete(key)
          else on.inputs.current.set(key, input)
        }}
        className={styles.input}
        type="text"
        inputMode="decimal"
        autoComplete="off"
        spellCheck={false}
        value={draft ?? shownText(point)}
        tabIndex={active ? 0 : -1}
        aria-label={label}
        aria-invalid={fault !== undefined || undefined}
        aria-describedby={notes.length > 0 ? noteId : undefined}
        onFocus={(event) => {
          on.setActive({ row, column })
          event.currentTarget.select()
        }}
        onBlur={() => on.take(place)}
        onChange={(event) => on.draft(key, event.currentTarget.value)}
        onKeyDown={(event) => on.onKey(event, { row, column }, place)}
        onPaste={on.onPaste}
      />
      {fault !== undefined && active && (
        <span className={styles.fault} role="alert">
          {hearing.pointFault(fault.fault)}
        </span>
      )}
      {notes.length > 0 && (
        <span className={styles.notes} id={noteId} data-active={active && fault === undefined}>
          {notes.join('; ')}
        </span>
      )}
    </td>
  )
}, isSameCell)

function useCellNotes({ point, place, draft, changedBy }: GridCellProps): string[] {
  const { hearing } = useMessages()
  const remarks = remarksOn(point, place).map((remark) =>
    remark.code === 'beyond' ? hearing.grid.beyond(remark.limit) : hearing.grid.offGrid,
  )
  if (changedBy === undefined) return remarks
  const changed =
    draft === undefined ? hearing.grid.changedBy(changedBy) : hearing.grid.nowReads(shownText(point) || '–', changedBy)
  return [...remarks, changed]
}

/** Acts on the cell that had the focus last, for fingers; and the keys that do the same. */
function GridFoot({ grid, hintId }: { grid: Grid; hintId: string }) {
  const { hearing } = useMessages()
  const place = grid.placeAt(grid.active)
  if (place === undefined) return null
  const acting = (act: (place: PointPlace) => void) => () => {
    act(place)
    grid.go(grid.active)
  }
  return (
    <div className={styles.foot}>
      <div className={styles.buttons}>
        <Button onClick={acting(grid.acts.changeSign)}>{hearing.grid.minus}</Button>
        <Button onClick={acting(grid.acts.noResponse)}>{hearing.grid.noResponse}</Button>
        <Button onClick={acting(grid.acts.couldNotTest)}>{hearing.grid.couldNotTest}</Button>
        <Button onClick={acting(grid.acts.clear)}>{hearing.grid.clear}</Button>
      </div>
      <p id={hintId} className={styles.hint}>
        {hearing.grid.hint}
      </p>
    </div>
  )
}
