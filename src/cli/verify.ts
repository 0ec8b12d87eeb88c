import { verify } from '#lib/record/verify.ts';
import { archiveFaultText } from '#lib/words/archive-fault.ts';
import { openInput } from './files.ts';
import { badInput, type Call, type Outcome } from './outcome.ts';

const EXIT = { 'as-written': 0, rewritten: 3, changed: 1 } as const;

/** Checks an archive. Exit 0 as written; 3 content whole, container rewritten; 1 changed, each file or entry named; 2 not readable. */
export async function verifyCommand(call: Call): Promise<Outcome> {
  const container = await openInput(call);
  if (!container.ok) return container.fault;
  const { verdict, job, counts, findings } = await verify(container.value);
  const said = findings.map((finding) => ({ ...finding, message: archiveFaultText(finding, call.locale) }));
  if (verdict === 'unreadable') {
    const { code, message, ...facts } = said[0]!;
    return badInput('file' in facts ? facts.file : 'FILE', code, message);
  }
  return { exit: EXIT[verdict], answer: { verdict, job, counts, findings: said } };
}
