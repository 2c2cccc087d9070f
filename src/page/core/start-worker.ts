import { startWorker } from './worker.ts';

startWorker(globalThis as unknown as Parameters<typeof startWorker>[0]);
