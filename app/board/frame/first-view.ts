import { createContext } from 'react'

/** User-timing mark: chart and questions stand and are in step with the server; what comes after may wait. */
export const firstViewMark = 'promontory first view'

/** Whether the first view stands, so that what is read after the chart may be loaded; where nobody says so, it may. */
export const CalmContext = createContext(true)
