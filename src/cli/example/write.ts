// node src/cli/example/write.ts: seals the example job anew into static/example/log.jsonl, after its pictures or its days changed.
import { writeFile } from 'node:fs/promises';
import { EXAMPLE_FOLDER, exampleJob, exampleLog } from './job.ts';

const { raws, blobs } = await exampleJob();
await writeFile(new URL('log.jsonl', EXAMPLE_FOLDER), exampleLog(raws));
console.log(`${raws.length} entries, ${blobs.size} pictures`);
