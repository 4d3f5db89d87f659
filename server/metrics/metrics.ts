import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client'
import type { Meter } from './meter.ts'

/** What is true at the moment of asking. */
export interface Watched {
  sockets(): number
  followers(): number
  rooms(): number
  /** whether notices of other processes arrive */
  isInTouch(): boolean
}

export interface Metrics {
  readonly meter: Meter
  readonly contentType: string
  watch(watched: Watched): void
  /** In the text format of Prometheus: numbers and codes, nothing that anybody wrote. */
  text(): Promise<string>
}

/** From a commit on a fast disk to the patience of the database client. */
const appendBucketsSeconds = [0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5]

export function createMetrics(): Metrics {
  const registers = [new Registry()] as [Registry]
  const [registry] = registers
  collectDefaultMetrics({ register: registry })
  const edits = new Counter({ name: 'promontory_edits_total', help: 'Updates stored by this process', registers })
  const refusals = new Counter({
    name: 'promontory_refusals_total',
    help: 'Edits that the guard refused, by the code of the refusal',
    labelNames: ['code'],
    registers,
  })
  const outages = new Counter({
    name: 'promontory_store_outages_total',
    help: 'Rooms that were closed because the store failed',
    registers,
  })
  const appends = new Histogram({
    name: 'promontory_append_seconds',
    help: 'From handing a batch of edits to the store until it is stored',
    buckets: appendBucketsSeconds,
    registers,
  })
  return {
    meter: {
      stored: (updates, seconds) => {
        edits.inc(updates)
        appends.observe(seconds)
      },
      refused: (code) => refusals.inc({ code }),
      outage: () => outages.inc(),
    },
    contentType: registry.contentType,
    watch: (watched) => watchWith(registers, watched),
    text: () => registry.metrics(),
  }
}

function watchWith(registers: [Registry], { sockets, followers, rooms, isInTouch }: Watched): void {
  const gauge = (name: string, help: string, value: () => number) =>
    new Gauge({
      name,
      help,
      registers,
      collect() {
        this.set(value())
      },
    })
  gauge('promontory_connections', 'Sockets on case documents', sockets)
  gauge('promontory_followers', 'Sockets that follow a programme', followers)
  gauge('promontory_rooms', 'Case documents that are open', rooms)
  gauge('promontory_in_touch', '1 while notices of other processes arrive', () => (isInTouch() ? 1 : 0))
}
