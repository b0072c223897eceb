/** The files that an editor has open: what is read, what is worked out again, and what is dropped. */

import { describe, expect, it } from 'vitest';
import { CancellationToken, CancellationTokenSource } from 'vscode-languageserver';
import type { Gradual } from '../../grammar/gradual.js';
import type { FileProblem } from '../../server/sequence/findings.js';
import { LONGEST_FILE } from '../../server/sequence/library.js';
import type { AnalysedDocument } from '../../server/service/document.js';
import { Cancelled } from '../../server/service/patience.js';
import { Workspace } from '../../server/service/workspace.js';

const NONE = CancellationToken.None;
const FOLDER = 'file:///nursery';
const MACHINE = 'machine desk\n  setting 4\n  counter 4\n  result 8\n';

/** A workspace over files that are texts in an object, and the addresses that have been read. */
function workspaceWith(files: Record<string, string | FileProblem>) {
  const read: string[] = [];
  const clock = { now: () => performance.now(), pause: () => new Promise<void>((resolve) => setImmediate(resolve)) };
  const disk = {
    async read(uri: string) {
      read.push(uri.slice(FOLDER.length + 1));
      const found = files[uri.slice(FOLDER.length + 1)];
      if (found === undefined) return { problem: 'missing' as const };
      return found.includes('\n') ? { text: found } : { problem: found as FileProblem };
    },
    find: async () => Object.keys(files).map((name) => `${FOLDER}/${name}`),
  };
  return { workspace: new Workspace(clock, disk, () => [FOLDER]), read, files };
}
const codes = async (workspace: Workspace, name: string) =>
  (await workspace.analysed(`${FOLDER}/${name}`, NONE))?.report.findings.map(({ facts }) => facts.code);

describe('a workspace', () => {
  it('reads used files when they are needed, each once', async () => {
    const { workspace, read } = workspaceWith({ 'a.crank': 'use "b.crank"\n', 'b.crank': MACHINE });
    workspace.didOpen(`${FOLDER}/c.crank`, 1, 'use "a.crank"\nsequence s on desk\n  clear all\n  set 3\n  turn\n');
    expect(await codes(workspace, 'c.crank')).toEqual([]);
    expect(await codes(workspace, 'c.crank')).toEqual([]);
    expect(read).toEqual(['a.crank', 'b.crank']);
  });

  it('prefers what is open to what the disk has, and falls back to it on closing', async () => {
    const { workspace } = workspaceWith({ 'b.crank': MACHINE });
    workspace.didOpen(`${FOLDER}/c.crank`, 1, 'use "b.crank"\nsequence s on desk\n  clear all\n  set 12345\n  turn\n');
    expect(await codes(workspace, 'c.crank')).toEqual(['setting-too-long', 'idle-turn']);
    workspace.didOpen(`${FOLDER}/b.crank`, 1, MACHINE.replace('setting 4', 'setting 5'));
    expect(await codes(workspace, 'c.crank')).toEqual([]);
    workspace.didClose(`${FOLDER}/b.crank`);
    expect(await codes(workspace, 'c.crank')).toEqual(['setting-too-long', 'idle-turn']);
  });

  it('follows a file that changes on the disk, appears or goes', async () => {
    const { workspace, files } = workspaceWith({});
    workspace.didOpen(`${FOLDER}/c.crank`, 1, 'use "b.crank"\nsequence s on desk\n  clear all\n');
    expect(await codes(workspace, 'c.crank')).toEqual(['file-not-found', 'unknown-name']);
    files['b.crank'] = MACHINE;
    workspace.didChangeOnDisk(`${FOLDER}/b.crank`);
    expect(await codes(workspace, 'c.crank')).toEqual([]);
    delete files['b.crank'];
    workspace.didChangeOnDisk(`${FOLDER}/b.crank`);
    expect(await codes(workspace, 'c.crank')).toEqual(['file-not-found', 'unknown-name']);
  });

  it('knows which documents need a file', async () => {
    const { workspace } = workspaceWith({ 'b.crank': 'use "m.crank"\n', 'm.crank': MACHINE });
    workspace.didOpen(`${FOLDER}/c.crank`, 1, 'use "b.crank"\n');
    workspace.didOpen(`${FOLDER}/d.crank`, 1, MACHINE);
    await codes(workspace, 'c.crank');
    await codes(workspace, 'd.crank');
    expect(workspace.dependents(`${FOLDER}/m.crank`)).toEqual([`${FOLDER}/c.crank`]);
    expect(workspace.dependents(`${FOLDER}/d.crank`)).toEqual([`${FOLDER}/d.crank`]);
  });

  it('does not read what lies outside', async () => {
    const { workspace, read } = workspaceWith({});
    workspace.didOpen(`${FOLDER}/c.crank`, 1, 'use "../palace/b.crank"\n');
    expect(await codes(workspace, 'c.crank')).toEqual(['file-not-found']);
    expect(read).toEqual([]);
  });

  it('reads what lies beside a single file that is in no folder', async () => {
    const clock = { now: () => 0, pause: async () => {} };
    const files = { read: async () => ({ text: MACHINE }), find: async () => [] };
    const workspace = new Workspace(clock, files);
    workspace.didOpen('file:///desk/a.crank', 1, 'use "b.crank"\nsequence s on desk\n  clear all\n');
    expect((await workspace.analysed('file:///desk/a.crank', NONE))?.report.findings).toEqual([]);
  });

  it('keeps addresses as the client writes them', async () => {
    const { workspace } = workspaceWith({});
    const uri = 'file:///c%3A/Gew%C3%A4chshaus/b%C3%A4ume.crank';
    workspace.didOpen(uri, 1, MACHINE);
    workspace.didOpen(
      'file:///c%3A/Gew%C3%A4chshaus/c.crank',
      1,
      'use "bäume.crank"\nsequence s on desk\n  clear all\n',
    );
    const document = await workspace.analysed('file:///c%3A/Gew%C3%A4chshaus/c.crank', NONE);
    expect(document?.report.findings).toEqual([]);
    expect(workspace.dependents('file:///c:/Gewächshaus/bäume.crank')).toContain(uri);
  });

  it.each(['a#b.crank', 'a?b.crank', '100%.crank', 'a b.crank', 'ä%20.crank'])(
    'finds a file called %s',
    async (name) => {
      const read: string[] = [];
      const clock = { now: () => 0, pause: async () => {} };
      const disk = {
        async read(uri: string) {
          read.push(decodeURIComponent(uri.slice(FOLDER.length + 1)));
          return { text: MACHINE };
        },
        find: async () => [],
      };
      const workspace = new Workspace(clock, disk, () => [FOLDER]);
      workspace.didOpen(`${FOLDER}/c.crank`, 1, `use "${name}"\nsequence s on desk\n  clear all\n`);
      expect(await codes(workspace, 'c.crank')).toEqual([]);
      expect(read).toEqual([name]);
      workspace.didOpen(`${FOLDER}/${encodeURIComponent(name)}`, 1, MACHINE);
      expect(workspace.dependents(`${FOLDER}/${encodeURIComponent(name)}`)).toContain(`${FOLDER}/c.crank`);
    },
  );

  it('says what is too long to be read, and lives', async () => {
    const { workspace } = workspaceWith({});
    workspace.didOpen(`${FOLDER}/c.crank`, 1, '#'.repeat(LONGEST_FILE + 1));
    const document = await workspace.analysed(`${FOLDER}/c.crank`, NONE);
    expect(document?.report.findings).toEqual([]);
    expect(document?.library.problemOf(`${FOLDER}/c.crank`)).toBe('too-large');
  });
});

/** Some hundred milliseconds of cranking, in one sequence. */
const LONG = `${MACHINE}sequence long on desk\n  clear all\n  set 1\n${'  repeat 300 {\n    turn 9\n    turn back 9\n  }\n'.repeat(150)}`;

describe('long work', () => {
  it('stops when nobody wants it any more', async () => {
    const { workspace } = workspaceWith({});
    workspace.didOpen(`${FOLDER}/c.crank`, 1, LONG);
    await workspace.parsed(`${FOLDER}/c.crank`, NONE);
    const source = new CancellationTokenSource();
    const asked = workspace.analysed(`${FOLDER}/c.crank`, source.token);
    setImmediate(() => source.cancel());
    await expect(asked).rejects.toThrow(Cancelled);
    // Whoever asks again gets the whole of it.
    expect((await workspace.analysed(`${FOLDER}/c.crank`, NONE))?.report.sequences[0].runs[0].tape.length).toBe(90_002);
  });

  it('stops for a newer edit, and answers with that', async () => {
    const { workspace } = workspaceWith({});
    workspace.didOpen(`${FOLDER}/c.crank`, 1, LONG);
    const asked = workspace.analysed(`${FOLDER}/c.crank`, NONE);
    setImmediate(() => workspace.didChange(`${FOLDER}/c.crank`, 2, [{ text: MACHINE }]));
    const document = await asked;
    expect(document?.version).toBe(2);
    expect(document?.report.sequences).toEqual([]);
  });

  it('is done once for all who ask at the same time', async () => {
    const { workspace } = workspaceWith({});
    workspace.didOpen(`${FOLDER}/c.crank`, 1, LONG);
    const [a, b] = await Promise.all([1, 2].map(() => workspace.analysed(`${FOLDER}/c.crank`, NONE)));
    expect(a?.report).toBe(b?.report);
  });

  it('lets others in while it works on a document, and begins afresh where it has changed', async () => {
    const { workspace } = workspaceWith({});
    const uri = `${FOLDER}/c.crank`;
    workspace.didOpen(uri, 1, MACHINE);
    let begun = 0;
    const slowly = function* (document: AnalysedDocument): Gradual<{ text: string }> {
      begun++;
      const until = performance.now() + 40;
      while (performance.now() < until) yield;
      return { text: document.lines.join('\n') };
    };
    const asked = workspace.worked(uri, NONE, slowly);
    while (begun === 0) await new Promise((resolve) => setImmediate(resolve));
    const longer = `${MACHINE}sequence s on desk\n`;
    workspace.didOpen(uri, 2, longer);
    expect((await asked)?.text).toBe(longer);
    expect(begun).toBe(2);
    const source = new CancellationTokenSource();
    const lost = workspace.worked(uri, source.token, slowly);
    while (begun === 2) await new Promise((resolve) => setImmediate(resolve));
    source.cancel();
    await expect(lost).rejects.toThrow(Cancelled);
    expect(await workspace.worked(`${FOLDER}/gone.crank`, NONE, slowly)).toBeUndefined();
  });

  it('goes on for one when another loses interest', async () => {
    const { workspace } = workspaceWith({});
    workspace.didOpen(`${FOLDER}/c.crank`, 1, LONG);
    await workspace.parsed(`${FOLDER}/c.crank`, NONE);
    const source = new CancellationTokenSource();
    const lost = workspace.analysed(`${FOLDER}/c.crank`, source.token);
    const kept = workspace.analysed(`${FOLDER}/c.crank`, NONE);
    setImmediate(() => source.cancel());
    await expect(lost).rejects.toThrow(Cancelled);
    expect((await kept)?.report.sequences).toHaveLength(1);
  });
});
