/** The mechanism, for the other rooms. */
export * from './carriage.js';
export * from './cheapest.js';
export * from './fault.js';
export * from './fault-reach.js';
export * from './faulty.js';
export * from './figures.js';
export * from './profile.js';
export * from './state.js';
export * from './turn.js';
