// The records of thirty generated jobs, each read back by programs that are not ours, and one as PDF/A-1b by a validator where there is one.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { ROOT } from '../../src/cli/ready.mjs';
import { recordPdf } from '#lib/report/pdf.ts';
import { wordRecord } from '#lib/report/word.ts';
import { buildDocument } from '#lib/report/document.ts';
import { project } from '#lib/job/project.ts';
import { FONTS, greyPictures, recordOf } from '../unit/report/job-fixture.ts';
import { SIGNATURES, WHOLE_SHOTS, wholeLog } from '../unit/report/whole-job.ts';

const JOBS = 30;
/** Debian's packages libpdfbox2-java, libactivation-java, libjaxb-api-java and libcommons-logging-java put these here. */
const JARS = ['pdfbox2', 'fontbox2', 'preflight', 'xmpbox', 'commons-logging', 'jaxb-api', 'javax.activation'].map(
  (jar) => `/usr/share/java/${jar}.jar`,
);

export const inputs = ['src/lib/report', 'src/lib/job', 'src/lib/words', 'tests/unit/report', 'tests/sim'];

export async function run(seed: number): Promise<Record<string, number | string>> {
  const env = { ...process.env, GENERATED_JOBS: String(JOBS), GENERATED_FIRST: String(seed % 1_000_000_000) };
  execFileSync(process.execPath, ['node_modules/vitest/vitest.mjs', 'run', 'tests/unit/report/generated.test.ts'], {
    cwd: ROOT,
    env,
    stdio: 'inherit',
  });
  return { jobs: JOBS, pdfa1b: await archival() };
}

/**
 * The same pages as PDF/A-1b: PDF 1.4, untagged, nothing attached. Only this part of PDF/A has a validator among Debian's packages; what
 * part 3a asks beyond it is asserted key by key in the unit tests.
 */
async function archival(): Promise<string> {
  const folder = mkdtempSync(path.join(tmpdir(), 'pdfa-'));
  try {
    const entries = await wholeLog();
    const pictures = await greyPictures([...WHOLE_SHOTS, ...SIGNATURES]);
    const { built, by } = recordOf(entries, pictures);
    const printed = new Map([...pictures].map(([original, { sha256 }]) => [original, sha256]));
    const document = buildDocument({ job: project(entries).state, unreadable: 0, built, by, printed });
    const worded = wordRecord(document, ['en']);
    const pdf = await recordPdf({ worded, paper: 'letter', fonts: FONTS, pictures, log: null, builtUtc: built.utc, archival: '1b' });
    const file = path.join(folder, 'record.pdf');
    writeFileSync(file, new Uint8Array(await pdf.blob.arrayBuffer()));
    const said = execFileSync('java', ['-cp', JARS.join(':'), 'org.apache.pdfbox.preflight.Validator_A1b', file], { encoding: 'utf8' });
    if (!said.includes('is a valid PDF/A-1b file')) throw new Error(said);
    return 'valid';
  } finally {
    rmSync(folder, { recursive: true });
  }
}
