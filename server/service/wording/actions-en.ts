/** What code actions say. Steps of the notation are handed in as they are written. */

export const actions = {
  changeTo: (text: string) => `Change to ${text}`,
  leaveOut: (text: string) => `Leave out ${text}`,
  putBefore: (steps: string) => `Put before it: ${steps}`,
  putAfter: (steps: string) => `Put after it: ${steps}`,
  putAbove: (lines: string) => `Put above it: ${lines}`,
  putBelow: (lines: string) => `Put below it: ${lines}`,
  putAtStart: (steps: string) => `Put at the start: ${steps}`,
  putAtEnd: (steps: string) => `Put at the end: ${steps}`,
  putAround: (before: string, after: string) => `Put ${before} before it and ${after} after it`,
  add: (line: string) => `Add ${line}`,
  onOwnLine: 'Put it on a line of its own',
  closeText: 'Close the text with a quotation mark',
  closeBrace: 'Close the repeat with a brace',
  useFile: (path: string) => `Bring it in: use "${path}"`,
  newParameter: (parameter: string) => `Make it a parameter: ${parameter}`,
  crankOn: (machine: string) => `Crank on ${machine}`,
  crankOnFrom: (machine: string, path: string) => `Crank on ${machine} from ${path}`,
  /** Where the reading that was expected is not what the machine shows. */
  expectReading: (reading: string) => `Expect what the machine shows: ${reading}`,
  /** Places of a page that are filled from a sequence. */
  fillInset: (kind: string) => `Put in what the machine shows: ${kind}`,
  overwriteInset: 'Put what the machine shows in the place of what was written here',
  leaveOutComment: 'Leave this comment out',
  putReadings: 'Put the readings below this block',
  fixAll: 'Mend all that changes no reading',
  openOut: (step: string) => `Open ${step} out into its single steps`,
  gather: (step: string) => `Gather these turns and shifts into ${step}`,
  extract: (name: string) => `Take these steps out into a sequence ${name}`,
  expectAfterEach: 'Expect the readings after each step',
  expectAtEnd: 'Expect the readings at the end',
  expectAsked: 'Expect the readings that are asked for',
  writeSteps: 'Write the steps for this goal',
  replaceSteps: 'Replace the steps by planned ones',
  carryOverAnywhere: 'Carry over to another machine',
  carryOver: (machine: string) => `Carry over to ${machine}`,
  /** What it would cost, and what it costs now. */
  withEffort: (title: string, effort: number, before: number | undefined) =>
    `${title} (effort ${effort}${before === undefined ? '' : before === effort ? ', as now' : ` in place of ${before}`})`,
  /** A comment above the new sequence. */
  carriedOver: (sequence: string, machine: string) => `Carried over from ${sequence}. What is different on ${machine}:`,
  /** Names for what is new. */
  partName: 'part',
  sequenceName: 'trial',
  machineName: 'machine-1',
  /** Why something can't be done now. */
  disabled: {
    tooMany: (lines: number, most: number) =>
      `It would become ${lines.toLocaleString('en-US')} lines; ${most.toLocaleString('en-US')} are the most.`,
    parameter: (name: string) => `How it is cranked depends on the number of the parameter ${name}.`,
    differs: 'It is cranked differently from one time to the next.',
    notRun: 'The machine does not come to this step, or cannot carry it out.',
    prose: 'There is prose of the page between these lines.',
    otherName: (name: string) => `${name} means something else here than there.`,
    needsBefore: 'By themselves these steps would have errors: they need what the steps before them have set.',
    cases: 'The readings differ from one case or round to the next.',
    brokeOff: 'The run breaks off before the end.',
    nothing: 'There is no reading to expect.',
    comments: 'The comments among the steps would be lost.',
    unread: 'There is a line among the steps that is not understood and would be lost.',
    planned: 'These are the planned steps already.',
    notReadable: 'The sequence has an error, or is not run to its end.',
    otherGoal: 'Another goal of the sequence would be missed.',
  },
};
