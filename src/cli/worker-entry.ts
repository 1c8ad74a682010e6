/** The script that worker threads of the command line run; the bundled one lies at the same place. */
export const WORKER_ENTRY = new URL('../../workers/evaluate.node.js', import.meta.url);
/** The same for threads that compute flows. */
export const VERIFY_ENTRY = new URL('../../workers/verify.node.js', import.meta.url);
