// node src/cli/compute/write.ts > docs/trade.md, after a function of the trade was added or told otherwise.
import { tradePage } from './page.ts';

process.stdout.write(tradePage());
