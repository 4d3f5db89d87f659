import { execFile } from 'node:child_process'
import { promisify } from 'node:util'

/**
 * Files of a running process may not grow beyond so many bytes: what it writes behind that fails, as on a disk that is full,
 * and with 0 everything that it writes, as on a disk that has become read-only. (RLIMIT_FSIZE; Node ignores the signal.)
 */
export async function limitFileBytes(pid: number | undefined, bytes: number | 'unlimited'): Promise<void> {
  await promisify(execFile)('prlimit', [`--pid=${pid}`, `--fsize=${bytes}:unlimited`])
}
