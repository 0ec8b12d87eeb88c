// npm run build: what npm start serves, without serving it.
import { ensureBuilt } from './ready.mjs';

ensureBuilt();
