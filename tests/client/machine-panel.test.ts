/** One panel with a machine, in as much of an editor as it needs: what it asks for, and when. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { URI, Utils } from 'vscode-uri';
import type { FromMachinePage, MachineState, ToMachinePage } from '../../client/machine-messages.js';
import { MachinePanel } from '../../client/machine-panel.js';
import type { MachineAnswer, MachineParams } from '../../client/protocol.js';

const editor = vi.hoisted(() => ({ led: [] as string[], marked: [] as number[] }));
vi.mock('vscode', async () => {
  const uri = await import('vscode-uri');
  class Range {
    constructor(
      readonly startLine: number,
      readonly startCharacter: number,
      readonly endLine: number,
      readonly endCharacter: number,
    ) {}
  }
  const text = { document: { uri: uri.URI.parse('file:///nursery/a.crank') } };
  return {
    Uri: Object.assign(uri.URI, { joinPath: uri.Utils.joinPath }),
    UIKind: { Desktop: 1, Web: 2 },
    ViewColumn: { One: 1 },
    OverviewRulerLane: { Full: 7 },
    TextEditorRevealType: { InCenterIfOutsideViewport: 2 },
    ThemeColor: class {},
    Range,
    CancellationTokenSource: class {
      token = { isCancellationRequested: false };
      cancel() {
        this.token.isCancellationRequested = true;
      }
    },
    l10n: {
      t: (message: string, ...gaps: unknown[]) => message.replace(/\{(\d)\}/g, (_, n) => String(gaps[Number(n)])),
    },
    env: { language: 'en' },
    workspace: {},
    window: {
      visibleTextEditors: [
        {
          ...text,
          setDecorations: (_: unknown, ranges: readonly Range[]) => {
            editor.marked = ranges.map(({ startLine }) => startLine);
          },
          revealRange: () => {},
        },
      ],
      createTextEditorDecorationType: () => ({ dispose: () => {} }),
      showTextDocument: async (address: URI, { selection }: { selection: Range }) => {
        editor.led.push(`${address.path}:${selection.startLine}`);
        const active = { line: selection.endLine, character: selection.endCharacter };
        return { document: { uri: address }, selection: { active, isEmpty: false } };
      },
      showErrorMessage: (message: string) => {
        throw new Error(message);
      },
    },
  };
});

const A = 'file:///nursery/a.crank';
const range = (line: number) => ({ start: { line, character: 2 }, end: { line, character: 8 } });
const sequences = [{ name: 'pots', title: '', range: { ...range(0), end: { line: 20, character: 0 } } }];
const answer = (moment: number, more: Partial<MachineAnswer> = {}): MachineAnswer => ({
  uri: A,
  sequence: 'pots',
  sequences,
  cases: ['defaults'],
  case: 0,
  frame: {
    moment,
    moments: 30,
    steps: moment,
    step: { text: 'turn', sentence: '', at: { uri: A, range: range(moment + 1) } },
    where: '',
    effort: '',
    changed: '',
    remarks: [],
    figure: { svg: '<svg/>', width: 1, height: 1, carriageAt: 0, parts: [] },
  },
  ...more,
});

/** A panel with a page and a server that answer when they are told to. */
function open(state: Partial<MachineState> = {}) {
  const asked: MachineParams[] = [];
  const sent: ToMachinePage[] = [];
  const waiting: ((answer: unknown) => void)[] = [];
  let take: (message: FromMachinePage) => void = () => {};
  let viewed: () => void = () => {};
  const web = {
    visible: true,
    title: '',
    iconPath: undefined,
    webview: {
      html: '',
      cspSource: 'page:',
      asWebviewUri: (address: URI) => address,
      postMessage: async (message: ToMachinePage) => sent.push(message) > 0,
      onDidReceiveMessage: (listener: typeof take) => {
        take = listener;
      },
    },
    onDidChangeViewState: (listener: typeof viewed) => {
      viewed = listener;
    },
    onDidDispose: () => {},
  };
  const server = {
    ask: (_: string, params: MachineParams) => {
      asked.push(params);
      return new Promise((resolve) => waiting.push(resolve));
    },
  };
  const context = { extensionUri: Utils.resolvePath(URI.parse(A), '/extension') };
  const keeper = { chosen: vi.fn(), follows: vi.fn(), closed: vi.fn() };
  const panel = new MachinePanel(
    web as never,
    { uri: A, line: 3, character: 2, follows: true, ...state },
    server as never,
    context as never,
    keeper,
  );
  const settled = () => new Promise((resolve) => setTimeout(resolve));
  return {
    panel,
    web,
    asked,
    sent,
    keeper,
    views: () => sent.flatMap((message) => (message.is === 'view' ? [message.view] : [])),
    async says(message: FromMachinePage) {
      take(message);
      await settled();
    },
    async answers(given: unknown) {
      waiting.shift()?.(given);
      await settled();
    },
    async isSeen(visible: boolean) {
      web.visible = visible;
      viewed();
      await settled();
    },
    cursorAt: (line: number, character = 2, isEmpty = true) =>
      panel.follow({
        document: { uri: URI.parse(A), version: 1 },
        selection: { active: { line, character }, isEmpty },
      } as never),
  };
}
beforeEach(() => {
  editor.led = [];
  editor.marked = [];
});

describe('what is asked', () => {
  it('is nothing before there is a page, and once when there is', async () => {
    const { asked, says } = open();
    expect(asked).toEqual([]);
    await says({ is: 'ready' });
    expect(asked).toEqual([{ uri: A, line: 3, character: 2 }]);
  });

  it('is one moment at a time, and of those wanted meanwhile the last', async () => {
    const { asked, says, answers, cursorAt, views } = open();
    await says({ is: 'ready' });
    for (let line = 4; line < 12; line++) cursorAt(line);
    expect(asked).toHaveLength(1);
    await answers(answer(1));
    expect(asked.slice(1)).toEqual([{ uri: A, line: 11, character: 2, moment: 1 }]);
    await answers(answer(9));
    expect(asked).toHaveLength(2);
    // The first is not drawn yet: the second waits, and nothing is asked.
    expect(views()).toHaveLength(1);
    cursorAt(12);
    expect(asked).toHaveLength(2);
    await says({ is: 'drawn' });
    expect(views().map(({ frame }) => frame?.moment)).toEqual([1, 9]);
    expect(asked).toHaveLength(3);
  });

  it('is nothing while nobody sees it, and once when somebody does', async () => {
    const { asked, says, answers, cursorAt, isSeen, panel } = open();
    await says({ is: 'ready' });
    await answers(answer(1));
    await says({ is: 'drawn' });
    await isSeen(false);
    for (let line = 4; line < 9; line++) cursorAt(line);
    panel.refresh();
    expect(asked).toHaveLength(1);
    await isSeen(true);
    await says({ is: 'ready' });
    expect(asked.slice(1)).toEqual([{ uri: A, line: 8, character: 2, moment: 1 }]);
  });
});

describe('what is shown', () => {
  it('is the last machine where there is none, with the reason and the way to mend it', async () => {
    const { says, answers, panel, views } = open();
    await says({ is: 'ready' });
    await answers(answer(4));
    await says({ is: 'drawn' });
    panel.refresh();
    const { frame: _, ...none } = answer(0);
    await answers({ ...none, trouble: { message: 'There is no machine.', at: { uri: A, range: range(0) } } });
    expect(views().at(-1)).toMatchObject({
      frame: { moment: 4 },
      trouble: {
        message: 'There is no machine.',
        shown: 'Below is the machine as it could be shown last.',
        place: 'Line 1',
      },
    });
    await says({ is: 'mend' });
    expect(editor.led).toEqual(['/nursery/a.crank:0']);
    await says({ is: 'drawn' });
    panel.refresh();
    await answers(null);
    expect(views().at(-1)).toMatchObject({ frame: { moment: 4 }, trouble: { message: /can’t be read/ } });
  });

  it('is marked in the text where the cursor stands elsewhere', async () => {
    const { says, answers, cursorAt } = open();
    await says({ is: 'ready' });
    await answers(answer(1));
    expect(editor.marked).toEqual([]);
    await says({ is: 'drawn' });
    await says({ is: 'move', by: 'step', count: 1 });
    await answers(answer(2));
    expect(editor.marked).toEqual([3]);
    await says({ is: 'drawn' });
    cursorAt(8);
    await answers(answer(7));
    expect(editor.marked).toEqual([]);
  });
});

describe('a part that somebody asks about', () => {
  it('leads to its step, and the panel to that moment, whatever the cursor then does', async () => {
    const { says, answers, asked, cursorAt } = open();
    await says({ is: 'ready' });
    await answers(answer(9));
    await says({ is: 'drawn' });
    await says({ is: 'part', part: 'result-2' });
    expect(asked.at(-1)).toEqual({ uri: A, sequence: 'pots', case: 0, moment: 9, part: 'result-2' });
    await answers({ uri: A, range: range(5), moment: 4 });
    expect(editor.led).toEqual(['/nursery/a.crank:5']);
    expect(asked.at(-1)).toEqual({ uri: A, sequence: 'pots', moment: 4 });
    const { length } = asked;
    cursorAt(5, 8, false);
    await answers(answer(4));
    await says({ is: 'drawn' });
    expect(asked).toHaveLength(length);
    cursorAt(6);
    expect(asked.at(-1)).toMatchObject({ line: 6 });
  });

  it('leads nowhere where nobody knows', async () => {
    const { says, answers } = open();
    await says({ is: 'ready' });
    await answers(answer(9));
    await says({ is: 'part', part: 'x' });
    await answers(null);
    expect(editor.led).toEqual([]);
  });
});

it('tells which case is chosen, and shows one that is chosen elsewhere', async () => {
  const { says, answers, asked, keeper, panel } = open();
  await says({ is: 'ready' });
  await answers(answer(1, { cases: ['defaults', 'case 1'] }));
  await says({ is: 'drawn' });
  await says({ is: 'case', number: 1 });
  expect(keeper.chosen).toHaveBeenCalledWith(A, 'pots', 1);
  expect(asked.at(-1)).toMatchObject({ case: 1 });
  await answers(answer(1, { case: 1 }));
  await says({ is: 'drawn' });
  panel.caseChosen(A, 'trays', 2);
  panel.caseChosen(A, 'pots', 0);
  expect(asked.at(-1)).toMatchObject({ case: 0 });
});

describe('while the debugger goes through a sequence', () => {
  const stands = (moment: number) => answer(moment, { isStepping: true });

  it('its machine is shown, wherever the cursor stands, and any other moment of it where somebody goes there', async () => {
    const { says, answers, asked, panel, cursorAt, views } = open();
    await says({ is: 'ready' });
    await answers(answer(1));
    await says({ is: 'drawn' });
    panel.stepped('s1', false);
    expect(asked.at(-1)).toEqual({ uri: A, stepping: 's1' });
    await answers(stands(5));
    await says({ is: 'drawn' });
    // The debugger marks the line itself.
    expect(editor.marked).toEqual([]);
    const { length } = asked;
    cursorAt(9);
    expect(asked).toHaveLength(length);
    await says({ is: 'move', by: 'turn', count: -1 });
    expect(asked.at(-1)).toEqual({ uri: A, stepping: 's1', moment: 5, moves: [{ by: 'turn', count: -1 }] });
    await answers(stands(4));
    await says({ is: 'drawn' });
    panel.stepped('s1', false);
    expect(asked.at(-1)).toEqual({ uri: A, stepping: 's1' });
    await answers(stands(6));
    await says({ is: 'drawn' });
    expect(views().at(-1)?.frame?.moment).toBe(6);
    // Over, it stays where it was until the cursor goes elsewhere.
    panel.stepped('s1', true);
    expect(asked.at(-1)).toEqual({ uri: A, sequence: 'pots', moment: 6 });
    await answers(answer(6));
    await says({ is: 'drawn' });
    cursorAt(9);
    expect(asked.at(-1)).toMatchObject({ line: 9, character: 2 });
  });

  it('a panel that is held stays with its sequence', async () => {
    const { says, answers, asked, panel } = open({ follows: false, sequence: 'pots' });
    await says({ is: 'ready' });
    await answers(answer(1));
    await says({ is: 'drawn' });
    panel.stepped('s1', false);
    panel.stepped('s1', true);
    expect(asked).toHaveLength(1);
  });

  it('a session that nobody knows is none', async () => {
    const { says, answers, asked, panel, cursorAt } = open();
    await says({ is: 'ready' });
    await answers(answer(1));
    await says({ is: 'drawn' });
    panel.stepped('lost', false);
    await answers(answer(2));
    await says({ is: 'drawn' });
    expect(asked.at(-1)).toMatchObject({ line: 3, character: 2 });
    await answers(answer(1));
    await says({ is: 'drawn' });
    cursorAt(9);
    expect(asked.at(-1)).toMatchObject({ line: 9 });
  });
});
