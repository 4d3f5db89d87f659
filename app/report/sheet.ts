import type { ChartLayer } from '@/app/audiogram/layers.ts'

/** A page of the report in words, as screen, paper and PDF file all show it. */
export interface Sheet {
  readonly kind: 'record' | 'publication' | 'appendix'
  readonly heading: string
  readonly blocks: readonly Block[]
  readonly cautions: readonly string[]
}

export interface Table {
  readonly caption: string
  readonly columns: readonly Column[]
  readonly groups: readonly RowGroup[]
}

/** `share` of the width, in parts of the sum over all columns. */
export interface Column {
  readonly name: string
  readonly share: number
  readonly align: 'start' | 'end'
}

export interface RowGroup {
  /** absent: the rows stand by themselves */
  readonly name?: string
  readonly rows: readonly Row[]
}

export interface Row {
  readonly id: string
  readonly cells: readonly string[]
}

export interface Chart {
  readonly label: string
  readonly layers: readonly ChartLayer[]
}

export interface Entry {
  readonly id: string
  readonly text: string
  /** lines that belong to it */
  readonly under?: readonly string[]
}

export type Block =
  | { readonly kind: 'warning'; readonly text: string }
  | { readonly kind: 'facts'; readonly facts: readonly (readonly [name: string, value: string])[] }
  | { readonly kind: 'charts'; readonly charts: readonly Chart[] }
  | { readonly kind: 'table'; readonly id: string; readonly table: Table; readonly tone: 'plain' | 'dense' }
  | {
      readonly kind: 'list'
      readonly title: string
      readonly entries: readonly Entry[]
      readonly tone: 'plain' | 'fine'
    }
