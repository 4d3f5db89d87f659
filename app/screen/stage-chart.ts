/** Height of axis text on the stage in its own pixels: the smallest that is read at 10 m (28 px on 1080 lines). */
export const stageChartText = 28
