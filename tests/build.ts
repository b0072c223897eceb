/** Tests of the command line run what users run: it is built afresh before them. */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export default function setup(): void {
  execFileSync(process.execPath, ['esbuild.mjs'], {
    cwd: fileURLToPath(new URL('..', import.meta.url)),
    stdio: 'inherit',
  });
}
