/** What can be tried for each part of a machine: short rows of steps and looks from where the machine happens to stand. */
export { bellActs, carryActs } from './carry.js';
export { clearingActs } from './clearing.js';
export { counterActs } from './counter.js';
export { leverActs } from './levers.js';
export { MOST_TURNS_FOR_ONE } from './shared.js';
export { transferActs } from './transfer.js';
