// node src/cli/with.mjs FILE ARGS...: makes ready what FILE needs, then runs it under the project's own Node.
import { ensureReady, goOn } from './ready.mjs';

goOn(ensureReady(), process.argv.slice(2));
