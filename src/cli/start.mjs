// npm start: install, build, serve. Each only when needed.
import { ensureBuilt, goOn, ROOT } from './ready.mjs';

// The server ends when the channel closes, so it never outlives us, however we end.
goOn(ensureBuilt(), ['src/server.mjs'], { cwd: ROOT, stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
