import { answerTo, isOfWalls } from '#lib/trade/laying/answer.ts';
import { planRoom } from '#lib/trade/laying/plan-room.ts';
import { readRoom, type RoomFault } from '#lib/trade/sheets/room.ts';
import * as m from '#lib/words/compiled/messages.js';
import { planFaultText } from '#lib/words/plan-fault.ts';
import { openInput, writeOutput } from './files.ts';
import { badInput, type Call, type Outcome } from './outcome.ts';
import { planAnswer } from '#lib/trade/laying/plan-answer.ts';
import { planSvg } from './plan-svg.ts';

/** Time of the processor until when each part of the work is broken off. */
const UNTIL_MS = { sheets: 1000, laying: 1200, remedies: 1400 } as const;

/** Plans a floor or walls (docs/plan.md). Exit 0 whatever the verdict; 2 for an input that is no room. */
export async function planCommand(call: Call): Promise<Outcome> {
  const input = await openInput(call);
  if (!input.ok) return input.fault;
  let json: unknown;
  try {
    json = JSON.parse(await input.value.text());
  } catch {
    return badInput('FILE', 'not-json', m.fault_plan_not_json({ file: call.file }, { locale: call.locale }));
  }
  const wrong = (fault: RoomFault) => badInput(fault.field, fault.code, planFaultText(fault, call.locale));
  if (isOfWalls(json)) {
    const answer = answerTo(json, budgets());
    if (call.svg !== '') return badInput('--svg', 'no-floor', m.fault_plan_no_floor({}, { locale: call.locale }));
    return answer.ok ? { exit: 0, answer: answer.value } : wrong(answer.fault);
  }
  const room = readRoom(json);
  if (!room.ok) return wrong(room.fault);
  const planned = planRoom(room.value, budgets());
  if (!planned.ok) return wrong(planned.fault);
  const answer = planAnswer(room.value, planned.value);
  if (call.svg !== '') {
    const unwritten = await writeOutput(new Blob([planSvg(room.value, planned.value, call.locale)]), { ...call, out: call.svg });
    if (unwritten !== null) return badInput('--svg', 'cannot-write', m.fault_cannot_write({ file: call.svg }, { locale: call.locale }));
  }
  return { exit: 0, answer };
}

/** The processor's time and not the clock's: a busy machine makes no worse plans. */
function budgets() {
  const start = process.cpuUsage();
  const until = (ms: number) => () => {
    const { user, system } = process.cpuUsage(start);
    return user + system < ms * 1000;
  };
  return {
    sheets: until(UNTIL_MS.sheets),
    laying: until(UNTIL_MS.laying),
    remedies: until(UNTIL_MS.remedies),
  };
}
