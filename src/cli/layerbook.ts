// npm run -s layerbook -- COMMAND: what the book can do without a screen. One JSON on stdout, nothing else.
import { answerTo } from './commands.ts';

try {
  const { exit, answer } = await answerTo(process.argv.slice(2), process.env);
  console.log(JSON.stringify(answer));
  process.exitCode = exit;
} catch (error) {
  // Our own mistake. 1 would say that an archive was changed; 70 is EX_SOFTWARE of sysexits.h.
  console.error(error);
  process.exitCode = 70;
}
