import type { Iso7029FrequencyHz, Sex } from './iso-7029.ts'

/**
 * One row of ISO 7029:2017. With u = age - 18 in years: median deviation a u^b in dB (Table 1); standard deviations of
 * the worse-hearing and the better-hearing half, c0 + c1 u + ... + c5 u^5 in dB (Tables 2 and 4, 3 and 5).
 */
export interface Iso7029Row2017 {
  readonly median: { readonly a: number; readonly b: number }
  readonly spreadWorse: readonly number[]
  readonly spreadBetter: readonly number[]
}

/** ISO 7029:2017, Tables 1 to 5, as seen in one public transcription. */
export const iso7029Table2017: Readonly<Record<Sex, Readonly<Record<Iso7029FrequencyHz, Iso7029Row2017>>>> = {
  male: {
    125: {
      median: { a: 2.5e-6, b: 3.841 },
      spreadWorse: [4.63, 0.645, -0.0885, 0.00369, -5.98e-5, 3.39e-7],
      spreadBetter: [3.34, 0.131, -0.0202, 0.00112, -2.28e-5, 1.57e-7],
    },
    250: {
      median: { a: 0.000139, b: 2.832 },
      spreadWorse: [5.27, 0.71, -0.0913, 0.00364, -5.74e-5, 3.22e-7],
      spreadBetter: [3.32, 0.23, -0.0254, 0.0012, -2.27e-5, 1.46e-7],
    },
    500: {
      median: { a: 0.000459, b: 2.537 },
      spreadWorse: [4.98, 0.751, -0.092, 0.00368, -5.84e-5, 3.28e-7],
      spreadBetter: [3.43, 0.362, -0.0411, 0.00187, -3.44e-5, 2.21e-7],
    },
    750: {
      median: { a: 0.00057, b: 2.512 },
      spreadWorse: [4.65, 0.733, -0.0881, 0.00359, -5.76e-5, 3.24e-7],
      spreadBetter: [3.6, 0.384, -0.0443, 0.00198, -3.55e-5, 2.22e-7],
    },
    1000: {
      median: { a: 0.000702, b: 2.494 },
      spreadWorse: [4.42, 0.714, -0.0854, 0.00357, -5.82e-5, 3.29e-7],
      spreadBetter: [3.77, 0.363, -0.0419, 0.00182, -3.14e-5, 1.89e-7],
    },
    1500: {
      median: { a: 0.00109, b: 2.446 },
      spreadWorse: [4.14, 0.679, -0.0804, 0.00352, -5.89e-5, 3.35e-7],
      spreadBetter: [3.93, 0.365, -0.0422, 0.00179, -2.96e-5, 1.7e-7],
    },
    2000: {
      median: { a: 0.00156, b: 2.404 },
      spreadWorse: [4.1, 0.632, -0.0753, 0.00346, -5.94e-5, 3.4e-7],
      spreadBetter: [4.01, 0.387, -0.0447, 0.00187, -3.02e-5, 1.69e-7],
    },
    3000: {
      median: { a: 0.00254, b: 2.35 },
      spreadWorse: [4.29, 0.53, -0.0628, 0.00309, -5.37e-5, 2.95e-7],
      spreadBetter: [4.11, 0.405, -0.0456, 0.00186, -2.83e-5, 1.46e-7],
    },
    4000: {
      median: { a: 0.0034, b: 2.325 },
      spreadWorse: [4.68, 0.455, -0.0552, 0.00295, -5.3e-5, 2.92e-7],
      spreadBetter: [4.09, 0.439, -0.0478, 0.00192, -2.84e-5, 1.4e-7],
    },
    6000: {
      median: { a: 0.00453, b: 2.315 },
      spreadWorse: [5.61, 0.363, -0.0472, 0.00292, -5.58e-5, 3.12e-7],
      spreadBetter: [4.01, 0.497, -0.0497, 0.00193, -2.67e-5, 1.18e-7],
    },
    8000: {
      median: { a: 0.00506, b: 2.328 },
      spreadWorse: [6.62, 0.291, -0.0416, 0.00292, -5.85e-5, 3.33e-7],
      spreadBetter: [3.9, 0.559, -0.0562, 0.0024, -3.92e-5, 2.29e-7],
    },
  },
  female: {
    125: {
      median: { a: 0.000616, b: 2.451 },
      spreadWorse: [5.05, 0.4, -0.046, 0.00173, -2.75e-5, 1.71e-7],
      spreadBetter: [3.64, 0.047, 0.00228, -6.68e-5, -8.72e-7, 2.3e-8],
    },
    250: {
      median: { a: 0.000398, b: 2.568 },
      spreadWorse: [5.01, 0.481, -0.0488, 0.0018, -2.81e-5, 1.67e-7],
      spreadBetter: [3.11, 0.226, -0.00771, 9.83e-5, -7.11e-7, 9.02e-9],
    },
    500: {
      median: { a: 0.000261, b: 2.708 },
      spreadWorse: [4.68, 0.51, -0.0516, 0.00195, -3.07e-5, 1.77e-7],
      spreadBetter: [2.98, 0.338, -0.0174, 0.000353, -2.78e-6, 1.01e-8],
    },
    750: {
      median: { a: 0.000225, b: 2.775 },
      spreadWorse: [4.45, 0.511, -0.0525, 0.00203, -3.18e-5, 1.81e-7],
      spreadBetter: [3.03, 0.378, -0.0224, 0.00052, -4.6e-6, 1.5e-8],
    },
    1000: {
      median: { a: 0.000221, b: 2.805 },
      spreadWorse: [4.34, 0.492, -0.0515, 0.00203, -3.18e-5, 1.78e-7],
      spreadBetter: [3.15, 0.382, -0.0239, 0.000562, -4.6e-6, 9.87e-9],
    },
    1500: {
      median: { a: 0.000253, b: 2.813 },
      spreadWorse: [4.23, 0.479, -0.0512, 0.00207, -3.26e-5, 1.8e-7],
      spreadBetter: [3.32, 0.387, -0.0264, 0.000671, -5.76e-6, 1.07e-8],
    },
    2000: {
      median: { a: 0.000312, b: 2.792 },
      spreadWorse: [4.26, 0.456, -0.0491, 0.00201, -3.16e-5, 1.7e-7],
      spreadBetter: [3.47, 0.392, -0.0284, 0.000779, -7.35e-6, 1.71e-8],
    },
    3000: {
      median: { a: 0.000488, b: 2.728 },
      spreadWorse: [4.36, 0.476, -0.0515, 0.00219, -3.51e-5, 1.91e-7],
      spreadBetter: [3.69, 0.392, -0.0296, 0.000844, -7.55e-6, 8.16e-9],
    },
    4000: {
      median: { a: 0.000737, b: 2.66 },
      spreadWorse: [4.61, 0.477, -0.0507, 0.00219, -3.51e-5, 1.88e-7],
      spreadBetter: [3.84, 0.402, -0.0317, 0.000999, -1.08e-5, 2.99e-8],
    },
    6000: {
      median: { a: 0.00147, b: 2.539 },
      spreadWorse: [5.22, 0.483, -0.0483, 0.00213, -3.39e-5, 1.74e-7],
      spreadBetter: [4.04, 0.403, -0.0315, 0.00106, -1.21e-5, 3.44e-8],
    },
    8000: {
      median: { a: 0.00253, b: 2.439 },
      spreadWorse: [5.84, 0.516, -0.0489, 0.00218, -3.49e-5, 1.77e-7],
      spreadBetter: [4.15, 0.413, -0.0301, 0.001, -9.97e-6, 8.74e-9],
    },
  },
}
