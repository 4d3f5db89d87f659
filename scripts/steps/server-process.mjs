/**
 * How the built server is started, by `npm start`, by the tests and (written out) by the service unit in deploy/.
 * A server mostly waits: a smaller space for young objects and two arenas of the C library keep some 25 MiB free that
 * would otherwise be taken for good, and cost nothing that the benches can tell.
 */
export const serverArguments = ['--max-semi-space-size=4', 'dist/server.mjs']
/** @type {{ NODE_ENV: 'production', MALLOC_ARENA_MAX: string }} */
export const serverEnvironment = { NODE_ENV: 'production', MALLOC_ARENA_MAX: '2' }
